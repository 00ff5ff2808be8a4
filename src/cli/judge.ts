/** `judge`: JSON Lines on standard input, one verdict for each on standard output, streaming and in order. */

import { once } from 'node:events'
import { explained } from '../kernel/response/explain.ts'
import { judge } from '../kernel/response/judge.ts'
import { type CommandRun, usage } from './io.ts'
import { readJudgeLine } from './judgeLine.ts'
import { type Line, linesOf } from './lines.ts'

/** Lines gathered before they are written: a write for each line would cost more than judging it. */
const BATCH_CHARACTERS = 16_384
/** No answer with its figures, states and alternatives comes near it. */
export const MOST_CHARACTERS = 1_000_000

export const run: CommandRun = async (args, io) => {
  if (args.length > 0) return usage(io, 'cli judge < answers.jsonl')
  let batch = ''
  const flush = async () => {
    const text = batch
    batch = ''
    if (text !== '' && !io.output.write(text)) await once(io.output, 'drain')
  }
  for await (const lines of linesOf(io.input, MOST_CHARACTERS)) {
    for (const line of lines) {
      if ('text' in line && line.text.trim() === '') continue
      batch += `${JSON.stringify(answer(line))}\n`
      // A reader that is slower than this holds the next line back.
      if (batch.length >= BATCH_CHARACTERS) await flush()
    }
    // Whoever writes one line and waits gets the verdict at once.
    await flush()
  }
  return 0
}

function answer(line: Line): unknown {
  if ('tooLong' in line) return { id: null, error: `the line is longer than ${MOST_CHARACTERS} characters` }
  const read = readJudgeLine(line.text)
  if ('error' in read) return read
  const { id, input, explain } = read
  try {
    const judgement = judge(input)
    const why = explain ? { why: explained(judgement, input.heard) } : {}
    return { ...(id === undefined ? {} : { id }), ...judgement, ...why }
  } catch (error) {
    // A fault of ours at one line takes no other line with it.
    return { id: id ?? null, error: `cannot be judged: ${error instanceof Error ? error.message : String(error)}` }
  }
}
