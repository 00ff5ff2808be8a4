/** A checklist on paper, as text -> its lists with their items, as they stand there; what is a guess is a doubt. */

import { csvLines } from './csvPaper.ts'
import { knownLines } from './lineKinds.ts'
import type { Paper } from './paper.ts'
import { paperText } from './paperText.ts'
import { Reading } from './reading.ts'

export function readPaper(source: string): Paper {
  const text = paperText(source)
  const reading = new Reading()
  for (const line of text.tooLong) reading.doubts.push({ line, text: 'a line of more than 400 letters is left out' })
  if (text.unreadFrom !== undefined) {
    reading.doubts.push({
      line: text.unreadFrom,
      text: 'the text is longer than a pack may be; from here on nothing was read',
    })
  }
  const csv = csvLines(text.lines)
  const lines = csv?.lines ?? knownLines(text.lines)
  reading.doubts.push(...(csv?.doubts ?? []))
  for (const [index, line] of lines.entries()) {
    reading.read(line, lines[index + 1])
  }
  return reading.end()
}
