/** `hear`: the on-device recogniser over sound files, and the verdict on what it heard; one JSON line a file. */

import { access } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { createNodeRecogniser, type HeardInFile, nodeRescorer } from '../adapters/ear/nodeEar.ts'
import { grammarOf } from '../kernel/hearing/grammar.ts'
import type { Hearable } from '../kernel/hearing/hearable.ts'
import { jsgfOf } from '../kernel/hearing/jsgf.ts'
import { vocabularyOfItems } from '../kernel/hearing/vocabulary.ts'
import { onOneLine } from '../kernel/quoted.ts'
import type { Hypotheses } from '../kernel/response/hypotheses.ts'
import type { JudgeInput } from '../kernel/response/model.ts'
import { readTextFile, whyUnreadable } from './files.ts'
import { judgeHeard } from './heardVerdict.ts'
import { type CommandRun, type Io, usage } from './io.ts'
import { readJudgeLine } from './judgeLine.ts'

const USAGE =
  'hear --response TEXT [--figures FILE.json] [--states JSON] [--challenge TEXT] [--phraseology NAME] [--grammar] AUDIO.wav...'

type Asked = Omit<JudgeInput, keyof Hypotheses>
interface Options {
  readonly asked: Asked
  readonly grammar: boolean
  readonly files: readonly string[]
}

export const run: CommandRun = async (args, io) => {
  const values = argumentsOf(args)
  if (!values) return usage(io, USAGE)
  const read = await readOptions(values)
  if ('error' in read) {
    io.errors.write(`${read.error}\n`)
    return 1
  }
  const { asked, grammar, files } = read
  const { challenge = '', response, states, figures } = asked
  const specs = response.figures.flatMap((name) => figures[name] ?? [])
  // Kinds go on, values stay behind: what follows cannot know the answer.
  const ofValues = new Set(['value', 'accept', 'read'])
  const shapes = specs.map((figure) =>
    Object.fromEntries(Object.entries(figure).filter(([name]) => !ofValues.has(name))),
  ) as unknown as Hearable['shapes']
  const vocabulary = vocabularyOfItems([{ challenge, responses: [{ response }], states }], shapes)
  const hearable: Hearable = { shapes, yesNo: asked.yesNo === true }
  if (grammar) {
    io.output.write(jsgfOf(grammarOf(hearable, vocabulary)))
    return 0
  }
  const there = await thoseThere(files, io)
  if (there.length === 0) return 1
  const recogniser = await createNodeRecogniser(vocabulary, await nodeRescorer())
  if (recogniser.missing.length > 0) {
    io.errors.write(`no pronunciation is known for ${recogniser.missing.join(', ')}; these words cannot be heard\n`)
  }
  let failed = there.length < files.length
  for (const file of there) {
    const heard = await recogniser.hear(file, hearable).catch((error: Error) => error)
    if (heard instanceof Error) {
      io.errors.write(`${onOneLine(await messageFor(file, heard))}\n`)
      failed = true
    } else await report(file, heard, asked, io)
  }
  return failed ? 1 : 0
}

/** Files that are there; of others it is said at once, for the models take their time to load. */
async function thoseThere(files: readonly string[], io: Io): Promise<readonly string[]> {
  const there: string[] = []
  for (const file of files) {
    try {
      await access(file)
      there.push(file)
    } catch (error) {
      io.errors.write(`${onOneLine(await messageFor(file, error as NodeJS.ErrnoException))}\n`)
    }
  }
  return there
}

async function report(file: string, heard: HeardInFile, asked: Asked, io: Io): Promise<void> {
  const { text, confidence, doubt, speechEndMs, decodeMs } = heard
  const { verdict, parts, ...more } = judgeHeard(asked, heard)
  const line = {
    file,
    heard: text,
    confidence,
    verdict,
    parts,
    ...more,
    ...(doubt && { doubt }),
    speechEndMs,
    decodeMs,
  }
  io.output.write(`${JSON.stringify(line)}\n`)
}

async function messageFor(file: string, error: NodeJS.ErrnoException): Promise<string> {
  if (error.code !== undefined) return `${file}: ${await whyUnreadable(file, error)}; name a WAV file`
  return error.message.startsWith(file) ? error.message : `${file}: ${error.message}`
}

function argumentsOf(args: readonly string[]) {
  const string = { type: 'string' } as const
  const options = {
    ...{ response: string, figures: string, states: string, challenge: string, phraseology: string },
    grammar: { type: 'boolean' },
  } as const
  try {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options })
    const isEnough = values.response !== undefined && (positionals.length > 0 || values.grammar === true)
    return isEnough ? { ...values, files: positionals } : undefined
  } catch {
    return undefined
  }
}

/** The same checks as for a line of `judge`. */
async function readOptions(values: NonNullable<ReturnType<typeof argumentsOf>>): Promise<Options | { error: string }> {
  const { response, challenge, phraseology, grammar = false, files } = values
  const figures = values.figures === undefined ? { json: {} } : await jsonFile(values.figures)
  if ('error' in figures) return figures
  const states = values.states === undefined ? { json: undefined } : jsonIn('--states', values.states)
  if ('error' in states) return states
  const asks = { response, challenge, phraseology, figures: figures.json, states: states.json, heard: '' }
  const read = readJudgeLine(JSON.stringify(asks))
  if ('error' in read) return { error: read.error }
  const { heard: _, alternatives: __, ...asked } = read.input
  return { asked, grammar, files }
}

type Json = { readonly json: unknown } | { readonly error: string }

async function jsonFile(file: string): Promise<Json> {
  const read = await readTextFile(file)
  return 'wrong' in read ? { error: `${file}: ${read.wrong}; name a file of figures` } : jsonIn(file, read.text)
}

function jsonIn(name: string, text: string): Json {
  try {
    return { json: JSON.parse(text) }
  } catch (error) {
    return { error: onOneLine(`${name}: not JSON: ${error instanceof Error ? error.message : error}`) }
  }
}
