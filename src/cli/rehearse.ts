/** `rehearse`: a whole procedure from a file of answers; exit 0 only if every list was completed. */

import { readFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { createFileLog } from '../adapters/log/fileLog.ts'
import { createMemoryLog } from '../adapters/log/memoryLog.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { isError, showProblem } from '../kernel/problem.ts'
import { readInputs } from '../packs/inputs.ts'
import type { RunLog } from '../ports.ts'
import { type CommandRun, usage } from './io.ts'
import { readPackDir } from './packDir.ts'
import { rehearseFile } from './rehearsal.ts'

const USAGE = 'rehearse --pack DIR --inputs FILE.yaml --answers FILE [--log FILE]'

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, USAGE)
  const { pack: dir, inputs: inputsFile, answers, log } = options
  const { pack, problems } = await readPackDir(dir)
  const fail = (lines: readonly string[]) => {
    for (const line of lines) io.errors.write(`${line}\n`)
    return 1 as const
  }
  if (!pack) return fail(problems.filter(isError).map(showProblem))
  let text: string
  try {
    text = await readFile(inputsFile, 'utf8')
    await readFile(answers, 'utf8')
  } catch (error) {
    return fail([`${error instanceof Error ? error.message : error}: name a file that can be read`])
  }
  const read_ = readInputs(text, inputsFile, pack)
  if (!read_.inputs) return fail(read_.problems.map(showProblem))
  let kept: RunLog
  try {
    kept = log ? await createFileLog(log) : createMemoryLog()
  } catch (error) {
    return fail([error instanceof Error ? error.message : String(error)])
  }
  let recogniser: ReturnType<typeof openRecogniser> | undefined
  const openRecogniser = async () =>
    (await import('../adapters/ear/nodeEar.ts')).createNodeRecogniser(vocabularyOf(pack))
  const end = await rehearseFile({
    pack,
    inputs: read_.inputs,
    answers,
    log: kept,
    print: (line) => io.output.write(`${line}\n`),
    hearWav: async (file, hearable) => {
      recogniser ??= openRecogniser()
      return (await recogniser).hear(file, hearable)
    },
  })
  return end.complete ? 0 : fail(end.problems)
}

function read(args: readonly string[]): { pack: string; inputs: string; answers: string; log?: string } | undefined {
  const string = { type: 'string' } as const
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { pack: string, inputs: string, answers: string, log: string },
    })
    const { pack, inputs, answers, log } = values
    return pack && inputs && answers ? { pack, inputs, answers, ...(log && { log }) } : undefined
  } catch {
    return undefined
  }
}
