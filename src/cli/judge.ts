/** `judge`: JSON Lines on standard input, one verdict for each on standard output, streaming and in order. */

import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { judge } from '../kernel/response/judge.ts'
import { type CommandRun, usage } from './io.ts'
import { readJudgeLine } from './judgeLine.ts'

/** Lines gathered before they are written: a write for each line would cost more than judging it. */
const BATCH_CHARACTERS = 16_384

export const run: CommandRun = async (args, io) => {
  if (args.length > 0) return usage(io, 'cli judge < answers.jsonl')
  let batch = ''
  let full: Promise<unknown> | undefined
  const flush = () => {
    const text = batch
    batch = ''
    if (text === '' || io.output.write(text)) return
    full ??= once(io.output, 'drain').then(() => {
      full = undefined
    })
  }
  const lines = createInterface({ input: io.input, crlfDelay: Number.POSITIVE_INFINITY })
  let idle: NodeJS.Immediate | undefined
  for await (const line of lines) {
    if (line.trim() === '') continue
    batch += `${JSON.stringify(answer(line))}\n`
    if (batch.length >= BATCH_CHARACTERS) flush()
    // Whoever writes one line and waits gets the verdict at once.
    idle ??= setImmediate(() => {
      idle = undefined
      flush()
    })
    // A reader that is slower than this holds the next line back.
    if (full) await full
  }
  if (idle) clearImmediate(idle)
  flush()
  if (full) await full
  return 0
}

function answer(line: string): unknown {
  const read = readJudgeLine(line)
  if ('error' in read) return read
  const { id, input } = read
  return { ...(id === undefined ? {} : { id }), ...judge(input) }
}
