/** One instructor's grades of a run as a file, and back: JSON, also out of the zip of a run that was marked in a room. */

import { type Grade, type GradeSheet, partName, sheetShape } from '../../kernel/training/grades.ts'
import { csvOf } from '../../packs/csvText.ts'
import { isRefused, type OfferedFile, type Refused } from '../../packs/files/offered.ts'
import { filesInZip, looksLikeZip } from '../../packs/files/zip.ts'

export const SHEET_FILE = 'grades.json'

const FORM = 'otherseat-grades'
const VERSION = 1
/** Bytes of a file of grades, and of a zip around it: half a minute of sound is 1 MB, a log some hundred kB. */
const MOST_SHEET_BYTES = 1_000_000
const MOST_ZIP_BYTES = 64_000_000

export const sheetText = (sheet: GradeSheet): string =>
  `${JSON.stringify({ form: FORM, v: VERSION, ...sheet }, undefined, 1)}\n`

/** For a person and their spreadsheet. */
export function gradesTable(grades: readonly Grade[]): string {
  const head = ['competency', 'name', 'of', 'grade', 'says', 'seen', 'not seen', 'by', 'given']
  const rows = grades.map((one) => [
    ...[one.competency, one.name, partName(one), one.grade, one.step],
    ...[one.seen.join('; '), one.notSeen.join('; '), one.by, one.given],
  ])
  return csvOf([head, ...rows])
}

/** Of a file as it was chosen; what is wrong goes on behind its name. */
export async function sheetIn(file: OfferedFile): Promise<GradeSheet | Refused> {
  const most = /\.zip$/i.test(file.path) ? MOST_ZIP_BYTES : MOST_SHEET_BYTES
  if (file.size > most) return { wrong: `is too large: at most ${most / 1_000_000} MB are read` }
  const bytes = await file.bytes()
  if (isRefused(bytes)) return { wrong: `cannot be read: ${bytes.wrong}` }
  if (!looksLikeZip(bytes)) return sheetOf(bytes)
  const files = filesInZip(bytes, { mostBytes: MOST_ZIP_BYTES, mostFiles: 1_000, what: 'one with grades', instead: '' })
  if (isRefused(files)) return { wrong: `cannot be read: ${files.wrong}` }
  const inside = files.find(({ path }) => path.split('/').at(-1) === SHEET_FILE)
  if (!inside) return { wrong: `has no ${SHEET_FILE} in it: the run was saved without grades` }
  return inside.size > MOST_SHEET_BYTES ? { wrong: 'is too large' } : sheetOf(await inside.bytes())
}

function sheetOf(bytes: Uint8Array | Refused): GradeSheet | Refused {
  if (isRefused(bytes)) return { wrong: `cannot be read: ${bytes.wrong}` }
  let value: unknown
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
  } catch {
    value = undefined
  }
  const { form, v } = (typeof value === 'object' && value !== null ? value : {}) as { form?: unknown; v?: unknown }
  if (form !== FORM)
    return { wrong: 'is no file of grades: choose the .json that was saved with them, or the zip of the run' }
  if (v !== VERSION)
    return {
      wrong: `is of form ${String(v)}, and this edition reads form ${VERSION}: save it anew with the same edition`,
    }
  const wrong = sheetShape(value)
  if (wrong !== undefined) return { wrong: `is damaged: ${wrong.replace(/^\./, '')}` }
  const sheet = value as GradeSheet
  const stranger = sheet.grades.find(({ runId }) => runId !== sheet.runId)
  return stranger ? { wrong: 'is damaged: it has a grade of another run than its own' } : sheet
}
