/** A checklist on paper, as text -> its lists with their items, as they stand there; what is a guess is a doubt. */

import { quoted } from '../../kernel/quoted.ts'
import { csvLines } from './csvPaper.ts'
import { knownLines } from './lineKinds.ts'
import type { Paper } from './paper.ts'
import { paperText } from './paperText.ts'
import { Reading } from './reading.ts'
import { withSubItems } from './subItems.ts'
import { tablesIn } from './tablesIn.ts'
import { titleLines } from './titleLines.ts'

export function readPaper(source: string): Paper {
  const text = paperText(source)
  const reading = new Reading()
  for (const { line, begins } of text.tooLong)
    reading.doubts.push({ line, text: `a line of more than 400 letters is left out; it begins ${quoted(begins)}` })
  if (text.unreadFrom !== undefined) {
    reading.doubts.push({
      line: text.unreadFrom,
      text: 'the text is longer than a pack may be; from here on nothing was read',
    })
  }
  const tables = tablesIn(source)
  for (const { line, last } of tables)
    reading.doubts.push({
      line,
      text: `lines ${line} to ${last} are taken for a table of numbers, and not for items: it stands in tables.yaml`,
    })
  const isOfTable = (line: number) => tables.some((table) => line >= table.line && line <= table.last)
  const bare = text.lines.map((line) => (isOfTable(line.line) ? { ...line, text: '', indent: 0 } : line))
  const csv = csvLines(bare)
  const head = csv ? undefined : titleLines(bare)
  const ofHead = new Set([head?.title.line, head?.operator?.line, head?.aircraft?.line])
  const below = bare.map((line) => (ofHead.has(line.line) ? { ...line, text: '', indent: 0 } : line))
  reading.title = head?.title
  const lines = csv?.lines ?? withSubItems(knownLines(below))
  reading.doubts.push(...(csv?.doubts ?? []))
  for (const [index, line] of lines.entries()) {
    reading.read(line, lines[index + 1])
  }
  return { ...reading.end(), ...(head && { head }) }
}
