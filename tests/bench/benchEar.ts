/**
 * `npm run bench:ear`: how well the ear hears, on voices and values that it was not tuned on, in clean sound, in
 * cockpit-like noise and among other voices. Needs flite, espeak-ng and sox for its corpus; human speech is in `audio/`.
 * Every wrong answer is judged from what was heard of a right one: each single digit changed, neighbours swapped, the
 * other direction; of words the contrary, the left-out "not" and every other answer of the benchmark.
 * `-- --json` prints one flat object; `--count N` utterances, `--seed N`, `--set tuning|check`, `--conditions a,b`, `--no-rescorer`;
 * `--misses` prints what was not right, `--utterances FILE` writes what was heard of each; `--write` stores the conditions that were
 * measured in `audio/figures.json` and makes its page anew.
 */

import { appendFileSync } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { joined } from '../../src/adapters/ear/audio/denoise.ts'
import {
  createNodeRecogniser,
  type NodeRecogniser,
  nodeRescorer,
  type RecognisedRecording,
} from '../../src/adapters/ear/nodeEar.ts'
import { endSilence, TIMES } from '../../src/adapters/ear/utterance/utteranceFinder.ts'
import { judgeHeard } from '../../src/cli/heardVerdict.ts'
import { hasAnswerShape } from '../../src/kernel/hearing/answerShape.ts'
import { completeness } from '../../src/kernel/hearing/completeness.ts'
import type { Hearable, Vocabulary } from '../../src/kernel/hearing/hearable.ts'
import { vocabularyOfItems } from '../../src/kernel/hearing/vocabulary.ts'
import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { responseOnce } from '../corpus/judgeText.ts'
import { type EarCase, VALUE_ITEMS, WORD_ITEMS } from './earCases.ts'
import { earCorpus, type Spoken } from './earCorpus.ts'
import type { Condition } from './earFigures.ts'
import { readFigures, writeFigures } from './figuresFile.ts'
import { airflow, babble, cockpitNoise, inNoise } from './noise.ts'
import { isBusy, stampNow } from './stamp.ts'
import { emptyTally, interval, percentile, type Tally } from './tally.ts'

const MODEL = fileURLToPath(new URL('../../public/model/', import.meta.url))
type NoiseOf = (samples: number, seed: number) => Float32Array
const amongOthers: NoiseOf = (samples, seed) => babble(talkers, samples, seed)
/** At a ratio in dB; airflow is harsher than what the targets were set with. */
const NOISES: Readonly<Record<Condition, { readonly noiseOf: NoiseOf; readonly db: number } | undefined>> = {
  clean: undefined,
  snr20: { noiseOf: cockpitNoise, db: 20 },
  snr15: { noiseOf: cockpitNoise, db: 15 },
  snr10: { noiseOf: cockpitNoise, db: 10 },
  snr5: { noiseOf: cockpitNoise, db: 5 },
  air10: { noiseOf: airflow, db: 10 },
  babble20: { noiseOf: amongOthers, db: 20 },
  babble10: { noiseOf: amongOthers, db: 10 },
}

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    count: { type: 'string', default: '80' },
    seed: { type: 'string', default: '20' },
    set: { type: 'string', default: 'check' },
    conditions: { type: 'string', default: Object.keys(NOISES).join(',') },
    misses: { type: 'boolean', default: false },
    utterances: { type: 'string' },
    rescorer: { type: 'boolean', default: true },
    write: { type: 'boolean', default: false },
  },
  allowNegative: true,
})
const vocabulary: Vocabulary = vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], [])
const loadBegan = performance.now()
const recogniser: NodeRecogniser = await createNodeRecogniser(
  vocabulary,
  values.rescorer ? await nodeRescorer() : undefined,
)
const loadMs = performance.now() - loadBegan
const { spoken: corpus, sentences } = await earCorpus(
  values.set === 'tuning' ? 'tuning' : 'check',
  Number(values.seed),
  Number(values.count),
)
/** Four talkers: every fourth sentence each. */
const talkers = [0, 1, 2, 3].map((first) =>
  joined(sentences.filter((_, at) => at % 4 === first).map(({ first }) => first)),
)
const residentAtFirst = process.memoryUsage().rss
const results: Record<string, number> = {}
/** Of all conditions, and of the one under way. */
const lastVoiceToVerdict: number[] = []
const endpointToVerdict: number[] = []
let timesFrom = 0
const stamp = stampNow()

for (const name of values.conditions.split(',') as Condition[]) {
  const tallies = new Map<string, Tally>()
  for (const [index, spoken] of corpus.entries()) {
    // Each as if they had just sat down.
    if (spoken.voice !== corpus[index - 1]?.voice) recogniser.forget()
    // Rejection is measured in clean sound.
    if (!spoken.asked && name !== 'clean') continue
    const groups = ['all', `kind ${spoken.kind}`, `voice ${spoken.voice.startsWith('an4') ? 'human' : spoken.voice}`]
    const counted = groups.map((group) => tallies.get(group) ?? emptyTally())
    groups.forEach((group, at) => {
      tallies.set(group, counted[at] as Tally)
    })
    await hearOne(spoken, index, name, counted)
  }
  report(name, tallies)
  if (values.write) await store(name, tallies)
  timesFrom = lastVoiceToVerdict.length
}
results['ear.lastVoiceToVerdictMs.p50'] = percentile(lastVoiceToVerdict, 0.5)
results['ear.lastVoiceToVerdictMs.p95'] = percentile(lastVoiceToVerdict, 0.95)
results['ear.endpointToVerdictMs.p50'] = percentile(endpointToVerdict, 0.5)
results['ear.endpointToVerdictMs.p95'] = percentile(endpointToVerdict, 0.95)
results['ear.loadMs.cold'] = Math.round(loadMs)
results['ear.utterancesHeard'] = lastVoiceToVerdict.length
results['ear.grownMegabytes'] = Math.round((process.memoryUsage().rss - residentAtFirst) / 1e6)
results['ear.bytes'] = await bytesServed()
if (values.json) process.stdout.write(`${JSON.stringify(results)}\n`)
else
  for (const [key, value] of Object.entries(results))
    if (!/snr|air|babble|clean/.test(key)) process.stdout.write(`${key} ${value}\n`)

async function hearOne(spoken: Spoken, index: number, name: Condition, tallies: Tally[]): Promise<void> {
  const condition = NOISES[name]
  const noisy = (pcm: Float32Array, more: number) =>
    condition ? inNoise(pcm, condition.db, (samples) => condition.noiseOf(samples, index * 2 + more)) : pcm
  const { asked } = spoken
  const hearable: Hearable = { shapes: spoken.beside ?? shapesOf(asked), yesNo: false }
  const heard = await recogniser.follow(noisy(spoken.first, 0), hearable)
  note(name, spoken, heard)
  if (asked) timed(heard.decisionMs, hearable, heard.text)
  const count = (add: (tally: Tally) => void) => {
    for (const tally of tallies) add(tally)
  }
  if (!asked) {
    const isTaken = isTakenForAnswer(hearable.shapes, heard)
    count((tally) => {
      tally.otherTried++
      if (isTaken) tally.otherTaken++
    })
    return
  }
  const judged = judgedInRun(asked, hearable, heard)
  const isRight = judged.verdict === 'correct'
  const again = async () => {
    const second = spoken.second && (await recogniser.follow(noisy(spoken.second, 1), hearable))
    if (second) note(`${name} again`, spoken, second)
    return second
  }
  const isRightInTwo = isRight || (judged.verdict === 'sayAgain' && isCorrect(asked, hearable, await again()))
  const wrongAccepted = heard.doubt
    ? 0
    : asked.wrong.filter((other) => judgedInRun({ ...asked, ...other }, hearable, heard).verdict === 'correct').length
  count((tally) => {
    tally.rightTried++
    if (spoken.second) tally.saidTwice++
    if (spoken.second && isRightInTwo) tally.rightOfSaidTwice++
    if (isRight) tally.rightAccepted++
    if (isRightInTwo) tally.rightAcceptedInTwo++
    if (judged.verdict === 'negative') tally.rightCalledNegative++
    tally.wrongTried += asked.wrong.length
    tally.wrongAccepted += wrongAccepted
  })
  if (values.misses && !isRight) {
    process.stderr.write(
      `${name} ${spoken.voice} | ${asked.said} | ${heard.text} | ${judged.verdict} ${heard.doubt ?? ''} | ${heard.alternatives?.[0]?.text ?? ''}\n`,
    )
  }
}

/** One line for each utterance, to compare two editions of the ear by. */
function note(where: string, { voice, asked }: Spoken, { decisionMs: _, ...heard }: RecognisedRecording): void {
  if (values.utterances === undefined) return
  appendFileSync(values.utterances, `${JSON.stringify({ where, voice, said: asked?.said, heard })}\n`)
}

/** By the rule of a run: it has the shape of an answer, and judging calls it right or wrong. */
function isTakenForAnswer(shapes: Hearable['shapes'], heard: RecognisedRecording): boolean {
  if (!hasAnswerShape(shapes, '', heard.text)) return false
  const [shape] = shapes
  const figures = shape
    ? { x: { ...shape, value: shape.kind === 'digits' ? '0'.repeat(shape.length) : 9.9 } as Figure }
    : {}
  const { verdict } = judgeHeard({ challenge: '', response: responseOnce(shape ? '<x>' : 'brake set'), figures }, heard)
  return verdict === 'correct' || verdict === 'negative'
}

/** By the rule of a run: what has not the shape of an answer is asked for again. */
function judgedInRun(asked: EarCase, { shapes }: Hearable, heard: RecognisedRecording): ReturnType<typeof judgeHeard> {
  const isShaped = hasAnswerShape(shapes, asked.challenge, heard.text)
  return judgeHeard(
    { ...asked, response: responseOnce(asked.response) },
    isShaped ? heard : { ...heard, doubt: 'unsure' },
  )
}

function isCorrect(asked: EarCase, hearable: Hearable, heard: RecognisedRecording | undefined): boolean {
  return heard !== undefined && judgedInRun(asked, hearable, heard).verdict === 'correct'
}

/** What was said is decided in the pause; the verdict waits for whichever is later. */
function timed(decisionMs: number, hearable: Hearable, text: string): void {
  const silence = endSilence(completeness(hearable, text), TIMES)
  lastVoiceToVerdict.push(Math.round(Math.max(silence, TIMES.pausedMs + decisionMs)))
  endpointToVerdict.push(Math.round(Math.max(0, TIMES.pausedMs + decisionMs - silence)))
}

function shapesOf(asked: EarCase | undefined): Hearable['shapes'] {
  if (!asked) return [{ kind: 'digits', length: 4 }]
  return Object.values(asked.figures).map(({ value: _, accept: __, ...spec }) => spec) as Hearable['shapes']
}

/** A condition at a time: it takes long, and may be stopped. */
async function store(name: Condition, tallies: ReadonlyMap<string, Tally>): Promise<void> {
  const figures = await readFigures()
  const both = (times: readonly number[]) => {
    const own = times.slice(timesFrom)
    return [percentile(own, 0.5), percentile(own, 0.95)] as const
  }
  const measured = {
    ...{ stamp, seed: Number(values.seed), secondModel: values.rescorer },
    all: tallies.get('all') ?? emptyTally(),
    people: tallies.get('kind human digits') ?? emptyTally(),
    ...(!isBusy() && { times: { fromVoice: both(lastVoiceToVerdict), fromEndpoint: both(endpointToVerdict) } }),
  }
  await writeFigures({ ...figures, ear: { ...figures.ear, [name]: measured } })
}

function report(condition: string, tallies: ReadonlyMap<string, Tally>): void {
  for (const [group, tally] of tallies) {
    if (group === 'all') {
      const { otherTried, otherTaken, ...rest } = tally
      for (const [key, value] of Object.entries(rest)) results[`ear.${condition}.${key}`] = value
      results[`ear.${condition}.otherSpeechTaken`] = otherTaken
      results[`ear.${condition}.otherSpeechTried`] = otherTried
    }
    if (values.json) continue
    const other = tally.otherTried > 0 ? `; other speech taken ${tally.otherTaken} of ${tally.otherTried}` : ''
    process.stdout.write(
      `${condition.padEnd(6)} ${group.padEnd(18)} right ${interval(tally.rightAccepted, tally.rightTried)}` +
        `, in two ${interval(tally.rightOfSaidTwice, tally.saidTwice)}, called negative ${tally.rightCalledNegative}` +
        `; wrong accepted ${interval(tally.wrongAccepted, tally.wrongTried)}${other}\n`,
    )
  }
}

/** What a first visit fetches for the ear, before compression; the large dictionary is not among it. */
async function bytesServed(): Promise<number> {
  const names = await readdir(MODEL, { recursive: true }).catch(() => [])
  let sum = 0
  for (const name of names) {
    const { size, isFile } = await stat(join(MODEL, name)).then((at) => ({ size: at.size, isFile: at.isFile() }))
    if (isFile && !name.endsWith('all-words.txt')) sum += size
  }
  return sum
}
