/**
 * `npm run bench:ear -- people --from FOLDER`: how well the ear hears single words of many people. FOLDER has recordings
 * of one word each (WAV, or what sox reads) and `manifest.json`: a list of `{ file, word, speaker, set }`. Each word of an
 * item is said at it and judged as right, and as its opposite; each word of no item is said at one of them. Speakers of
 * the set `tuning` may be looked at, those of `check` are for what is reported. `--set tuning|check`, `--conditions clean,snr10`,
 * `--speakers FILE` (a list of those to take), `--pack DIR` (all that may be said in that pack, instead of the item
 * alone), `--most N` recordings of a word, `--misses` prints what was not right, `--json` one flat object, `--no-rescorer`.
 */

import { execFileSync } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { readWav } from '../../src/adapters/ear/audio/wav.ts'
import {
  createNodeRecogniser,
  type NodeRecogniser,
  nodeRescorer,
  type RecognisedRecording,
} from '../../src/adapters/ear/nodeEar.ts'
import { judgeHeard } from '../../src/cli/heardVerdict.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { Hearable, Vocabulary } from '../../src/kernel/hearing/hearable.ts'
import { vocabularyOf, vocabularyOfItems } from '../../src/kernel/hearing/vocabulary.ts'
import { responseOnce } from '../corpus/judgeText.ts'
import { cockpitNoise, inNoise } from './noise.ts'
import { interval, percentile } from './tally.ts'

interface Recording {
  readonly file: string
  readonly word: string
  readonly speaker: string
  readonly set: 'tuning' | 'check'
}

/** An item with two states, and the words for them. */
interface Item {
  readonly challenge: string
  readonly states: readonly [string, string]
}
const ITEMS: readonly Item[] = [
  { challenge: 'pumps', states: ['on', 'off'] },
  { challenge: 'trim direction', states: ['up', 'down'] },
  { challenge: 'side', states: ['left', 'right'] },
]
const HEARABLE: Hearable = { shapes: [], yesNo: false }
/** Cockpit-like noise this far below the voice, dB. */
const NOISES: Readonly<Record<string, number | undefined>> = { clean: undefined, snr20: 20, snr10: 10, snr5: 5 }

interface Counts {
  said: number
  right: number
  rightInTwo: number
  /** Of those that were said twice. */
  saidTwice: number
  askedAgain: number
  calledWrong: number
  oppositeAccepted: number
  otherSaid: number
  otherAccepted: number
}
const noCounts = (): Counts => ({
  ...{ said: 0, right: 0, rightInTwo: 0, saidTwice: 0, askedAgain: 0, calledWrong: 0 },
  ...{ oppositeAccepted: 0, otherSaid: 0, otherAccepted: 0 },
})

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    from: { type: 'string' },
    set: { type: 'string', default: 'tuning' },
    conditions: { type: 'string', default: 'clean,snr10' },
    speakers: { type: 'string' },
    pack: { type: 'string' },
    most: { type: 'string', default: 'Infinity' },
    misses: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
    rescorer: { type: 'boolean', default: true },
  },
  allowNegative: true,
})
if (values.from === undefined) {
  process.stderr.write('usage: bench:ear -- people --from FOLDER [--set tuning|check] [--conditions clean,snr10]\n')
  process.exit(2)
}
const folder = resolve(values.from)
const recordings = await recordingsOf()
const rescorer = values.rescorer ? await nodeRescorer() : undefined
const results: Record<string, number> = {}

for (const condition of values.conditions.split(',')) {
  if (!Object.hasOwn(NOISES, condition)) throw new Error(`--conditions: no ${condition} among ${Object.keys(NOISES)}`)
  const byRow = new Map<string, Counts>()
  const took: number[] = []
  for (const [index, item] of ITEMS.entries()) {
    const recogniser = await createNodeRecogniser(await vocabularyFor(item), rescorer)
    for (const word of item.states) await sayings(recogniser, item, word, condition, byRow, took)
    // Each word that answers no item is said at one of them.
    const others = recordings.filter(({ word }) => !ITEMS.some(({ states }) => states.includes(word)))
    for (const other of others.filter((_, at) => at % ITEMS.length === index)) {
      await otherWord(recogniser, item, other, condition, byRow, took)
    }
  }
  report(condition, byRow, took)
}
if (values.json) process.stdout.write(`${JSON.stringify(results)}\n`)

/** All of one word, each by somebody who has just sat down. */
async function sayings(
  recogniser: NodeRecogniser,
  item: Item,
  word: string,
  condition: string,
  byRow: Map<string, Counts>,
  took: number[],
): Promise<void> {
  const [first, second] = item.states
  const opposite = word === first ? second : first
  const ofWord = recordings.filter((recording) => recording.word === word)
  const counts = [countsOf(byRow, 'all words'), countsOf(byRow, word)]
  for (const [at, recording] of ofWord.entries()) {
    const heard = await hear(recogniser, recording, condition)
    took.push(heard.decisionMs)
    const verdict = verdictOn(item, word, heard)
    const isRight = verdict === 'correct'
    const again = ofWord[at + 1]
    const isTwice = again?.speaker === recording.speaker
    const isRightInTwo =
      isRight ||
      (isTwice &&
        verdict === 'sayAgain' &&
        verdictOn(item, word, await hear(recogniser, again, condition)) === 'correct')
    for (const count of counts) {
      count.said++
      if (isRight) count.right++
      if (isTwice) count.saidTwice++
      if (isTwice && isRightInTwo) count.rightInTwo++
      if (verdict === 'negative') count.calledWrong++
      if (verdict !== 'correct' && verdict !== 'negative') count.askedAgain++
      if (verdictOn(item, opposite, heard) === 'correct') count.oppositeAccepted++
    }
    if (!isRight) miss(condition, recording, heard, verdict)
  }
}

async function otherWord(
  recogniser: NodeRecogniser,
  item: Item,
  recording: Recording,
  condition: string,
  byRow: Map<string, Counts>,
  took: number[],
): Promise<void> {
  const heard = await hear(recogniser, recording, condition)
  took.push(heard.decisionMs)
  const isTaken = item.states.some((state) => verdictOn(item, state, heard) === 'correct')
  const count = countsOf(byRow, 'other words')
  count.otherSaid++
  if (isTaken) count.otherAccepted++
  if (isTaken) miss(condition, recording, heard, 'taken')
}

function countsOf(byRow: Map<string, Counts>, row: string): Counts {
  const counts = byRow.get(row) ?? noCounts()
  byRow.set(row, counts)
  return counts
}

async function hear(recogniser: NodeRecogniser, recording: Recording, condition: string): Promise<RecognisedRecording> {
  const pcm = await pcmOf(recording.file)
  const db = NOISES[condition]
  // The same noise for a recording in every run.
  const seed = recordings.indexOf(recording)
  recogniser.forget()
  return recogniser.recognise(
    db === undefined ? pcm : inNoise(pcm, db, (samples) => cockpitNoise(samples, seed)),
    HEARABLE,
  )
}

function verdictOn({ challenge, states }: Item, right: string, heard: RecognisedRecording) {
  const asked = { challenge, response: responseOnce(right), states: states.map((state) => [state]), figures: {} }
  return judgeHeard(asked, heard).verdict
}

function miss(condition: string, { file }: Recording, heard: RecognisedRecording, what: string): void {
  if (!values.misses) return
  process.stderr.write(`${condition} | ${file} | ${heard.text} | ${what} ${heard.doubt ?? ''}\n`)
}

async function recordingsOf(): Promise<readonly Recording[]> {
  const all: readonly Recording[] = JSON.parse(await readFile(join(folder, 'manifest.json'), 'utf8'))
  const speakers =
    values.speakers === undefined ? undefined : new Set<string>(JSON.parse(await readFile(values.speakers, 'utf8')))
  const taken = new Map<string, number>()
  return all.filter(({ word, speaker, set }) => {
    if (set !== values.set || speakers?.has(speaker) === false) return false
    const count = (taken.get(word) ?? 0) + 1
    taken.set(word, count)
    return count <= Number(values.most)
  })
}

async function pcmOf(file: string): Promise<Float32Array> {
  const path = join(folder, file)
  const bytes = file.endsWith('.wav')
    ? await readFile(path)
    : execFileSync('sox', [path, '-t', 'wav', '-b', '16', '-r', '16000', '-c', '1', '-'], {
        stdio: ['ignore', 'pipe', 'ignore'],
      })
  const wav = readWav(bytes)
  if ('problem' in wav) throw new Error(`${path}: ${wav.problem}`)
  return wav.pcm
}

async function vocabularyFor({ challenge, states }: Item): Promise<Vocabulary> {
  if (values.pack === undefined) {
    const responses = states.map((state) => ({ response: responseOnce(state) }))
    return vocabularyOfItems([{ challenge, responses, states: states.map((state) => [state]) }], [])
  }
  const { pack } = await readPackDir(values.pack)
  if (!pack) throw new Error(`${values.pack}: no pack without errors`)
  return vocabularyOf(pack)
}

function report(condition: string, byRow: ReadonlyMap<string, Counts>, took: readonly number[]): void {
  const lines = [...byRow].map(([row, counts]) => {
    for (const [name, count] of Object.entries(counts)) {
      if (count > 0 || row === 'all words') results[`people.${condition}.${row}.${name}`] = count
    }
    const { said, right, saidTwice, rightInTwo, askedAgain, calledWrong, oppositeAccepted } = counts
    return row === 'other words'
      ? `| ${row} | ${counts.otherSaid} | | | | | | ${interval(counts.otherAccepted, counts.otherSaid)} |`
      : `| ${row} | ${said} | ${interval(right, said)} | ${interval(rightInTwo, saidTwice)} | ${askedAgain} | ${calledWrong} | ${oppositeAccepted} | |`
  })
  if (values.json) return
  process.stdout.write(
    [
      `\n${condition}, set ${values.set}\n`,
      '| word | N | right | within two | asked again | called wrong | opposite accepted | taken for a state |',
      '| --- | --- | --- | --- | --- | --- | --- | --- |',
      ...lines,
      `\nDecision ${Math.round(percentile(took, 0.5))} ms in the middle, ${Math.round(percentile(took, 0.95))} of 95 in 100.\n`,
    ].join('\n'),
  )
}
