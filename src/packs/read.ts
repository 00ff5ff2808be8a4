/** Pack texts -> pack, or problems: all of them at once, each with file, line and column. Touches no file itself. */

import type { z } from 'zod'
import type { Pack } from '../kernel/pack/checklist.ts'
import { isError, type Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { adviceOn } from './advice/advice.ts'
import type { File } from './advice/written.ts'
import { figureModel } from './buildFigures.ts'
import { checkGrading, gradingListOf } from './buildGrading.ts'
import { buildPack } from './buildPack.ts'
import { papersOf } from './buildPapers.ts'
import { checkFigures } from './checkFigures.ts'
import { checkPapers } from './checkPapers.ts'
import { checkProcedures, checkSituations } from './checkProcedures.ts'
import { checkSynonyms } from './checkSynonyms.ts'
import { checkTables } from './checkTables.ts'
import { orderOf } from './figureGraph.ts'
import { type FiguresText, figuresFile, type WrittenFigures, withUnits } from './figuresSchema.ts'
import { gradingFile } from './gradingSchema.ts'
import { didYouMean } from './nearest.ts'
import { type PackText, packFile } from './packSchema.ts'
import { papersFile } from './papersSchema.ts'
import { listsIn, proceduresFile } from './proceduresSchema.ts'
import { shaped } from './shape.ts'
import { parseSource, type Source } from './source.ts'
import { checkWeights, placedAtWeights, standardFigures } from './standardWeights.ts'
import { type TablesText, tablesFile } from './tablesSchema.ts'
import { fewOf, told } from './telling.ts'

const NEEDED = ['pack.yaml', 'figures.yaml', 'procedures.yaml'] as const
/** Tables may be left out by a pack that looks nothing up, papers by one that is flown with somebody else's, a list to grade by for Otherseat's own. */
export const PACK_FILES = [...NEEDED, 'tables.yaml', 'papers.yaml', 'grading.yaml'] as const

/**
 * `texts` by file name; `sha256` is of those texts (`digest.ts`); `folder` is the name of the folder that they lie in, for
 * who writes the pack: advice on it is looked for then only. A pack comes back only where nothing is wrong.
 */
export function readPack(
  texts: Readonly<Record<string, string>>,
  sha256: string,
  folder?: string,
): { readonly pack?: Pack; readonly problems: Problem[] } {
  const pack = shapedFile(texts, 'pack.yaml', packFile)
  const written = shapedFile(texts, 'figures.yaml', figuresFile)
  const figures = figuresIn(written, pack.value)
  const procedures = shapedFile(texts, 'procedures.yaml', proceduresFile)
  const tables = shapedFile(texts, 'tables.yaml', tablesFile)
  const papers = shapedFile(texts, 'papers.yaml', papersFile)
  const grading = shapedFile(texts, 'grading.yaml', gradingFile)
  const noTables: TablesText = { tables: {} }
  const tablesText = texts['tables.yaml'] === undefined ? noTables : tables.value

  const problems = [
    ...strangers(texts),
    ...[pack, figures, tables, procedures, papers, grading].flatMap((one) => one.problems),
    ...(pack.value && pack.source ? checkSituations(pack.source, pack.value) : []),
    ...(pack.value && pack.source ? checkSynonyms(pack.source, pack.value, procedures.value) : []),
    ...(pack.value && pack.source && folder !== undefined ? checkFolder(pack.source, pack.value, folder) : []),
    ...(tables.value && tables.source ? checkTables(tables.source, tables.value) : []),
    ...(grading.value && grading.source ? checkGrading(grading.source, grading.value) : []),
  ]
  const order = figures.value && figures.source ? orderOf(figures.source, figures.value) : { order: [], problems: [] }
  problems.push(...order.problems)
  if (pack.value && figures.value && figures.source && tablesText) {
    const together = { pack: pack.value, figures: figures.value, tables: tablesText }
    problems.push(...checkFigures(figures.source, together))
  }
  if (procedures.value && procedures.source) {
    problems.push(...checkProcedures(procedures.source, procedures.value, pack.value, figures.value?.figures))
  }
  if (papers.value && papers.source) {
    const ground = { pack: pack.value, figures: figures.value, tables: tablesText, procedures: procedures.value }
    problems.push(...checkPapers(papers.source, papers.value, ground))
  }
  const ground = { pack: fileOf(pack), figures: fileOf(figures), procedures: fileOf(procedures) }
  const isSound = !problems.some(isError)
  if (folder !== undefined && isSound && ground.pack && ground.figures && ground.procedures) {
    const { pack, figures, procedures } = ground
    const more = { ...optional('tables', fileOf(tables)), ...optional('papers', fileOf(papers)) }
    problems.push(...adviceOn({ pack, figures, procedures, ...more }))
  }
  const all = told(problems)
  if (!isSound || !pack.value || !figures.value || !procedures.value || !tablesText) return { problems: all }
  const model = figureModel(pack.value, figures.value, tablesText, order.order)
  const laidOut = papers.value ? papersOf(papers.value, listsIn(procedures.value)) : []
  const built = buildPack(pack.value, model, procedures.value, laidOut, texts, sha256)
  return { pack: { ...built, ...(grading.value && { grading: gradingListOf(grading.value) }) }, problems: all }
}

/** With the figures that `weights` stands for, and the pack's own units where none was written. */
function figuresIn(
  { source, value, problems }: ShapedFile<WrittenFigures>,
  pack: PackText | undefined,
): ShapedFile<FiguresText> {
  if (!source || !value) return { ...optional('source', source), problems }
  const { weights: _, ...rest } = value
  const made = pack ? standardFigures(value, pack) : {}
  return {
    source: placedAtWeights(source, new Set(Object.keys(made))),
    problems: [...problems, ...checkWeights(source, value)],
    value: withUnits({ ...rest, figures: { ...made, ...value.figures } }, pack),
  }
}

/** The app finds a pack by its folder, and a log by its id. */
function checkFolder(source: Source, { id }: PackText, folder: string): Problem[] {
  if (id === folder) return []
  const message = `the id ${quoted(id)} is not the name of its folder, ${quoted(folder)}; change the id, or rename the folder to ${id}`
  return [{ code: 'pack.folder', message, place: source.place(['id']), severity: 'error' }]
}

interface ShapedFile<T> {
  readonly source?: Source
  readonly value?: T
  readonly problems: readonly Problem[]
}

function fileOf<T>({ source, value }: ShapedFile<T>): File<T> | undefined {
  return source && value !== undefined ? { source, value } : undefined
}

function optional<K extends string, T>(key: K, value: T | undefined): { readonly [P in K]?: T } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]: T })
}

function shapedFile<T>(texts: Readonly<Record<string, string>>, file: string, schema: z.ZodType<T>): ShapedFile<T> {
  const text = texts[file]
  if (text === undefined) return { problems: [] }
  const source = parseSource(file, text)
  return { source, ...shaped(source, schema) }
}

/** Files that are missing, and files that no pack has. */
function strangers(texts: Readonly<Record<string, string>>): Problem[] {
  const problem = (file: string, message: string): Problem => ({
    code: 'pack.files',
    message,
    place: { file, line: 1, column: 1 },
    severity: 'error',
  })
  const missing = NEEDED.filter((file) => texts[file] === undefined)
  const strange = Object.keys(texts).filter((file) => !(PACK_FILES as readonly string[]).includes(file))
  return [
    ...missing.map((file) => problem(file, `the pack has no ${file}`)),
    ...fewOf(
      strange.map((file) =>
        problem(file, `no file of a pack is called ${quoted(file)}${didYouMean(file, PACK_FILES)}`),
      ),
      (count) => `and ${count} more files are no part of a pack`,
    ),
  ]
}
