/** What is wrong with a pack's files and what would be better, by the same reading as everywhere, and what a list shows of it. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Problem } from '../../kernel/problem.ts'
import { adviseUnheld, revisionIn } from '../advice/inputs.ts'
import { packSha256 } from '../digest.ts'
import { readPack } from '../read.ts'
import { isSheet, type PackTexts, textsOf } from './parts.ts'
import { listsIn, type PackTitle, titleOf } from './title.ts'

export interface Inspected extends PackTitle {
  /** Only where nothing is wrong with it; a mistake in an example sheet is the sheet's. */
  readonly pack?: Pack
  /** Its own and those of its example sheets. */
  readonly problems: readonly Problem[]
  readonly lists: number
}

/** What was looked at last: what an editor shows is stored, and listed, a moment later. */
let last: { readonly files: PackTexts; readonly inspected: Promise<Inspected> } | undefined

export function inspect(files: PackTexts): Promise<Inspected> {
  if (!last || !isSame(last.files, files)) last = { files, inspected: inspectNow(files) }
  return last.inspected
}

function isSame(one: PackTexts, other: PackTexts): boolean {
  const paths = Object.keys(one)
  return paths.length === Object.keys(other).length && paths.every((path) => one[path] === other[path])
}

async function inspectNow(files: PackTexts): Promise<Inspected> {
  const texts = textsOf(files)
  const title = titleOf(files)
  // Here a pack lies in no folder; one of its own name has it looked at for advice as well.
  const { pack, problems } = readPack(texts, await packSha256(texts), title.id)
  const more = pack ? sheetProblems(pack, files, problems) : []
  return { ...title, ...(pack && { pack }), problems: [...problems, ...more], lists: listsIn(files) }
}

function sheetProblems(pack: Pack, files: PackTexts, own: readonly Problem[]): Problem[] {
  // What its figures make of a sheet follows from what is in doubt about them.
  const inDoubt = own.some(({ place }) => place?.file === 'figures.yaml' || place?.file === 'tables.yaml')
  const paths = Object.keys(files).filter(isSheet)
  const read = paths.map((path) => revisionIn(files[path] ?? '', path, pack, !inDoubt))
  const sheets = read.flatMap(({ inputs }) => inputs ?? [])
  const isWhole = read.length > 0 && sheets.length === read.length
  return [...read.flatMap(({ problems }) => problems), ...(isWhole ? adviseUnheld(pack, sheets) : [])]
}
