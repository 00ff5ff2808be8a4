/** What is wrong with a pack's files, by the same `readPack` and `readInputs` as everywhere, and what a list shows of it. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Problem } from '../../kernel/problem.ts'
import { packSha256 } from '../digest.ts'
import { readInputs } from '../inputs.ts'
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

export async function inspect(files: PackTexts): Promise<Inspected> {
  const texts = textsOf(files)
  const { pack, problems } = readPack(texts, await packSha256(texts))
  const sheets = pack ? Object.keys(files).filter(isSheet) : []
  const inSheets = sheets.flatMap((path) => (pack ? readInputs(files[path] ?? '', path, pack).problems : []))
  return { ...titleOf(files), ...(pack && { pack }), problems: [...problems, ...inSheets], lists: listsIn(files) }
}
