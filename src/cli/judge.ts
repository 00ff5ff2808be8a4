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
  const flush = async () => {
    const text = batch
    batch = ''
    if (text !== '' && !io.output.write(text)) await once(io.output, 'drain')
  }
  const lines = createInterface({ input: io.input, crlfDelay: Number.POSITIVE_INFINITY })
  let idle: NodeJS.Immediate | undefined
  for await (const line of lines) {
    if (line.trim() === '') continue
    batch += `${JSON.stringify(answer(line))}\n`
    if (batch.length >= BATCH_CHARACTERS) await flush()
    else {
      // Whoever writes one line and waits gets the verdict at once.
      idle ??= setImmediate(() => {
        idle = undefined
        void flush()
      })
    }
  }
  if (idle) clearImmediate(idle)
  await flush()
  return 0
}

function answer(line: string): unknown {
  const read = readJudgeLine(line)
  if ('error' in read) return read
  const { id, input } = read
  return { ...(id === undefined ? {} : { id }), ...judge(input) }
}
