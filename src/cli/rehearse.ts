/** `rehearse`: a whole procedure from a file of answers; exit 0 only if every list was completed. */

import { readFile } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { createFileLog } from '../adapters/log/fileLog.ts'
import { createMemoryLog } from '../adapters/log/memoryLog.ts'
import { type RehearsalParts, rehearseFile } from '../app/rehearsal/rehearsal.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { isError } from '../kernel/problem.ts'
import { showProblem } from '../kernel/problemLine.ts'
import { readInputs } from '../packs/inputs.ts'
import type { RunLog } from '../ports.ts'
import { type CommandRun, usage } from './io.ts'
import { readPackDir } from './packDir.ts'

const USAGE = 'rehearse --pack DIR --inputs FILE.yaml --answers FILE [--voices NUMBER [--radio icao|faa]] [--log FILE]'

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, USAGE)
  const { pack: dir, inputs: inputsFile, answers, log, voices, radio } = options
  const { pack, problems } = await readPackDir(dir)
  const fail = (lines: readonly string[]) => {
    for (const line of lines) io.errors.write(`${line}\n`)
    return 1 as const
  }
  if (!pack) return fail(problems.filter(isError).map(showProblem))
  let sheet: string
  let lines: string
  try {
    sheet = await readFile(inputsFile, 'utf8')
    lines = await readFile(answers, 'utf8')
  } catch (error) {
    return fail([`${error instanceof Error ? error.message : error}: name a file that can be read`])
  }
  const { inputs, ...wrong } = readInputs(sheet, inputsFile, pack)
  if (!inputs) return fail(wrong.problems.map(showProblem))
  let kept: RunLog
  try {
    kept = log ? await createFileLog(log) : createMemoryLog()
  } catch (error) {
    return fail([error instanceof Error ? error.message : String(error)])
  }
  let recogniser: ReturnType<typeof openRecogniser> | undefined
  const openRecogniser = async () => {
    const { createNodeRecogniser, nodeRescorer } = await import('../adapters/ear/nodeEar.ts')
    return createNodeRecogniser(vocabularyOf(pack), await nodeRescorer())
  }
  const end = await rehearseFile({
    pack,
    inputs,
    file: answers,
    answers: lines,
    ...(voices !== undefined && { voices }),
    ...(radio && { radio }),
    log: kept,
    print: (line) => io.output.write(`${line}\n`),
    readText: textsBeside(answers),
    hearWav: async (name, hearable) => {
      recogniser ??= openRecogniser()
      return (await recogniser).hear(resolve(dirname(answers), name), hearable)
    },
  })
  return end.complete ? 0 : fail(end.problems)
}

/** Files named in an answers file are relative to it. */
export const textsBeside =
  (file: string) =>
  (name: string): Promise<string | undefined> =>
    readFile(resolve(dirname(file), name), 'utf8').catch(() => undefined)

interface Options extends Pick<RehearsalParts, 'voices' | 'radio'> {
  readonly pack: string
  readonly inputs: string
  readonly answers: string
  readonly log?: string
}

function read(args: readonly string[]): Options | undefined {
  const string = { type: 'string' } as const
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { pack: string, inputs: string, answers: string, voices: string, radio: string, log: string },
    })
    const { pack, inputs, answers, voices, radio, log } = values
    if (voices !== undefined && !/^\d{1,9}$/.test(voices)) return undefined
    if (radio !== undefined && (voices === undefined || (radio !== 'icao' && radio !== 'faa'))) return undefined
    if (!pack || !inputs || !answers) return undefined
    return {
      pack,
      inputs,
      answers,
      ...(voices !== undefined && { voices: Number(voices) }),
      ...(radio && { radio }),
      ...(log && { log }),
    }
  } catch {
    return undefined
  }
}
