/** A departure flown from a file of answers, as its log. */

import { readFile } from 'node:fs/promises'
import { createMemoryLog } from '../src/adapters/log/memoryLog.ts'
import { type RehearsalParts, rehearseFile } from '../src/app/rehearsal/rehearsal.ts'
import { textsBeside } from '../src/cli/rehearse.ts'
import type { RunEvent } from '../src/kernel/run/core/events.ts'
import { readInputs } from '../src/packs/inputs.ts'

interface Flown extends Pick<RehearsalParts, 'pack' | 'file' | 'voices'> {
  /** Path of the sheet that it begins with. */
  readonly sheet: string
}

export async function rehearsed({ pack, file, sheet, voices }: Flown): Promise<RunEvent[]> {
  const { inputs } = readInputs(await readFile(sheet, 'utf8'), sheet, pack)
  if (!inputs) throw new Error(`${sheet} cannot be read`)
  const log = createMemoryLog()
  await rehearseFile({
    ...{ pack, inputs, log, file, readText: textsBeside(file), answers: await readFile(file, 'utf8') },
    ...(voices !== undefined && { voices }),
  })
  const [run] = await log.runs()
  return (await log.read(run?.runId ?? '')) as RunEvent[]
}
