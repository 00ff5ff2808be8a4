/** A pack's folder on disk -> its texts and the pack. The only place where the command line reads packs. */

import { createHash } from 'node:crypto'
import { readdir } from 'node:fs/promises'
import { basename, join, resolve } from 'node:path'
import { MOST_FILES } from '../kernel/bounds.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Problem } from '../kernel/problem.ts'
import { adviseUnheld, revisionIn } from '../packs/advice/inputs.ts'
import { digestBytes } from '../packs/digest.ts'
import { readPack } from '../packs/read.ts'
import { readTextFile, whyUnreadable } from './files.ts'

export interface PackOnDisk {
  readonly pack?: Pack
  readonly problems: readonly Problem[]
  readonly texts: Readonly<Record<string, string>>
}

/** Reads the YAML files of a folder (not of its sub-folders); places in problems carry the folder. */
export async function readPackDir(dir: string): Promise<PackOnDisk> {
  const found = await textsIn(dir)
  if ('wrong' in found) {
    const message = `${dir}: ${found.wrong}; name the folder of a pack, such as checklists/NAME`
    return { problems: [{ code: 'pack.files', message, severity: 'error' }], texts: {} }
  }
  const { texts, unread } = found
  // What is wrong with the others for want of these is no mistake of theirs.
  if (unread.length > 0) return { problems: unread.map((problem) => under(dir, problem)), texts }
  const { pack, problems } = readPack(texts, sha256Of(texts), basename(resolve(dir)))
  return { ...(pack && { pack }), problems: problems.map((problem) => under(dir, problem)), texts }
}

/**
 * What is wrong with the example revisions of a pack, if it has any. Where the pack's own figures are in doubt (`own`), what
 * they make of a revision is not told: it would follow from that.
 */
export async function inputsProblems(pack: Pack, dir: string, own: readonly Problem[]): Promise<readonly Problem[]> {
  const folder = join(dir, 'inputs')
  const found = await textsIn(folder)
  if ('wrong' in found) {
    if (found.isMissing) return []
    return [{ code: 'pack.files', message: `${folder}: ${found.wrong}`, severity: 'error' }]
  }
  const inDoubt = own.some(({ place }) => ['figures.yaml', 'tables.yaml'].includes(basename(place?.file ?? '')))
  const read = Object.entries(found.texts).map(([file, text]) => revisionIn(text, file, pack, !inDoubt))
  const sheets = read.flatMap(({ inputs }) => inputs ?? [])
  const isWhole = found.unread.length === 0 && read.length > 0 && sheets.length === read.length
  const lacking = isWhole ? adviseUnheld(pack, sheets) : []
  const all = [...found.unread, ...read.flatMap(({ problems }) => problems)]
  return [...all.map((problem) => under(folder, problem)), ...lacking.map((problem) => under(dir, problem))]
}

type TextsIn =
  | {
      readonly texts: Readonly<Record<string, string>>
      /** Files that could not be read, each with why. */
      readonly unread: readonly Problem[]
    }
  | {
      /** Goes on behind the folder's name. */
      readonly wrong: string
      readonly isMissing: boolean
    }

/** The YAML files of a folder by name. */
async function textsIn(dir: string): Promise<TextsIn> {
  let all: string[]
  try {
    all = await readdir(dir)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    const words = { ENOENT: 'no such folder', ENOTDIR: 'a file, not a folder' }
    return {
      wrong: words[code as keyof typeof words] ?? (await whyUnreadable(dir, error)),
      isMissing: code === 'ENOENT',
    }
  }
  const names = all.filter((name) => /\.ya?ml$/i.test(name)).sort()
  if (names.length > MOST_FILES) {
    return { wrong: `${names.length} YAML files in one folder, and at most ${MOST_FILES} are read`, isMissing: false }
  }
  const read = await Promise.all(names.map(async (name) => ({ name, ...(await readTextFile(join(dir, name))) })))
  const unread = read.flatMap(({ name, ...one }) => {
    if ('wrong' in one) return [unreadable(name, one.wrong)]
    const right = name.replace(/\.ya?ml$/i, '.yaml')
    return right === name ? [] : [unreadable(name, `its name does not end in .yaml; rename it to ${right}`)]
  })
  const texts = read.flatMap((one) => ('text' in one ? [[one.name, one.text] as const] : []))
  return { texts: Object.fromEntries(texts), unread }
}

function unreadable(file: string, message: string): Problem {
  return { code: 'file.unreadable', message, place: { file, line: 1, column: 1 }, severity: 'error' }
}

function under(dir: string, problem: Problem): Problem {
  const { place } = problem
  return place ? { ...problem, place: { ...place, file: join(dir, place.file) } } : problem
}

export function sha256Of(texts: Readonly<Record<string, string>>): string {
  return createHash('sha256').update(digestBytes(texts)).digest('hex')
}
