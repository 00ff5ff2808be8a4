/** papers.yaml in its shape -> the papers as the kernel knows them. Names are checked in `checkPapers.ts`. */

import type { Paper, PaperLine } from '../kernel/pack/paper.ts'
import type { PapersText } from './papersSchema.ts'
import { exactly } from './present.ts'

const asPaper = exactly<Paper>()
const asLine = exactly<PaperLine>()

/** `known`: the lists of the pack. */
export function papersOf({ papers }: PapersText, known: readonly string[]): Paper[] {
  return Object.entries(papers).map(([id, { lines, lists, ...same }]) =>
    asPaper({
      id,
      lines: lines.map((line) => asLine(line) as PaperLine),
      lists: lists === 'all' ? known : lists,
      ...same,
    }),
  )
}
