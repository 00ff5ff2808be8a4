/**
 * "Did you look?": the statistics against a general library, and whole logs of simulated pilots of whom it is known
 * which answers came without a look. Assumed: waits are log-normal, or normal with an exponential tail (ex-Gaussian), as
 * times of response mostly are; medians and spreads are no measurements.
 */

import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import type { Item, Pack } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { learned } from '../../../../src/kernel/run/debrief/look/learning.ts'
import { likelihoodRatio, modelsOf } from '../../../../src/kernel/run/debrief/look/lookModel.ts'
import { looksWords } from '../../../../src/kernel/run/debrief/look/looks.ts'
import {
  calibratedBy,
  type LookKind,
  type LookTimes,
  NO_TIMES,
  withTime,
} from '../../../../src/kernel/run/debrief/look/lookTimes.ts'
import { PACK, revision, TYPED, testRun } from '../fixture.ts'

/** Numbers between 0 and 1 that follow from a seed (mulberry32, public domain). */
function numbers(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}
const normal = (next: () => number) => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())

interface Pilot {
  /** Median waits in ms with a look at a value, at a state, and without any. */
  readonly value: number
  readonly state: number
  readonly word: number
  /** Of the logarithm; of an ex-Gaussian about the same share of the median. */
  readonly spread: number
  readonly shape?: 'exGaussian'
}
function wait({ spread, shape }: Pilot, median: number, next: () => number): number {
  if (shape === undefined) return Math.round(median * Math.exp(spread * normal(next)))
  const tail = 0.8 * spread * median
  const core = median - Math.LN2 * tail + 0.5 * spread * median * normal(next)
  return Math.max(60, Math.round(core - tail * Math.log(1 - next())))
}

const ITEMS = 24
const kindAt = (at: number): LookKind => (at % 3 === 2 ? 'state' : 'value')
const entry = (at: number): Item => ({
  ...{ type: 'item', id: `long.${at}`, challenge: `item ${at}`, answers: 'pilot', restsOn: [], critical: false },
  responses: [{ response: responseFrom(kindAt(at) === 'value' ? '<flap>' : 'closed') }],
  look: ['the panel'],
})
const LONG: Pack = {
  ...PACK,
  phases: [
    {
      ...{ id: 'long', name: 'Long' },
      activities: [
        {
          ...{ type: 'list', id: 'long', name: 'Long list', alsoCalled: [], needsFinal: false },
          entries: Array.from({ length: ITEMS }, (_, at) => entry(at)),
        },
      ],
    },
  ],
}

/** A calibration as the sound check makes it: six values and two words. */
function calibration(pilot: Pilot, next: () => number): LookTimes {
  const draw = (count: number, median: number) => Array.from({ length: count }, () => wait(pilot, median, next))
  const times = calibratedBy({ value: draw(6, pilot.value), word: draw(2, pilot.word) })
  if (!times) throw new Error('six values and two words are enough')
  return times
}

/** The waits of a run, and which of them were without a look. */
function answersOf(pilot: Pilot, share: number, next: () => number) {
  return Array.from({ length: ITEMS }, (_, at) => {
    const [kind, isQuick] = [kindAt(at), next() < share]
    return { kind, isQuick, ms: wait(pilot, isQuick ? pilot.word : pilot[kind], next) }
  })
}

/** A run's log, and which of its answers came without a look. */
function flown(pilot: Pilot, share: number, next: () => number, lookTimes: LookTimes | undefined) {
  const run = testRun(LONG)
    .happen({
      ...{ type: 'runStarted', situation: { stand: 'push' }, startedAt: 0 },
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      settings: { phraseology: 'plain', coachAfter: 0, ...(lookTimes && { lookTimes }) },
    })
    .happen(revision(1, 'preliminary', { flap: 14 }))
    .happen({ type: 'listCalled', list: 'long', evidence: TYPED })
  const truth = answersOf(pilot, share, next).map(({ isQuick, ms }, at) => {
    const saidUntil = 10_000 + at * 10_000
    const beganAt = saidUntil + ms
    run.happen({
      ...{ type: 'answered', item: `long.${at}`, expected: { flap: 14 }, challengeRevision: 1, revision: 1 },
      evidence: { by: 'voice', text: 'as heard', beganAt, endedAt: beganAt + 800, saidUntil },
      judgement: { verdict: 'correct', parts: [] },
    })
    return isQuick
  })
  return { events: run.events, truth }
}

interface Outcome {
  readonly sensitivity: number
  readonly specificity: number
  /** Share of answers called quick. */
  readonly called: number
}
const SEEDS = 30

/** Of many pilots alike, each in the run after so many earlier ones. */
function outcome(pilot: Pilot, share = 0.4, earlier = 0): Outcome {
  const counts = { hit: 0, missed: 0, false: 0, right: 0 }
  for (let seed = 1; seed <= SEEDS; seed++) {
    const next = numbers(seed * 7_919)
    let times = calibration(pilot, next)
    for (let run = 0; run < earlier; run++) times = learned(times, answersOf(pilot, share, next))
    const { events, truth } = flown(pilot, share, next, times)
    const { looks } = debriefOf(LONG, events)
    if (!looks.isCalibrated) throw new Error('it is calibrated')
    expect(looks.answers).toHaveLength(ITEMS)
    for (const [at, { isQuick }] of looks.answers.entries())
      counts[truth[at] ? (isQuick ? 'hit' : 'missed') : isQuick ? 'false' : 'right']++
  }
  return {
    sensitivity: counts.hit / (counts.hit + counts.missed),
    specificity: counts.right / (counts.right + counts.false),
    called: (counts.hit + counts.false) / (SEEDS * ITEMS),
  }
}

const USUAL: Pilot = { value: 1_300, state: 1_000, word: 450, spread: 0.25 }

describe('the statistics', () => {
  it('of the times are those of a general library', () => {
    const waits = [640, 900, 1_310, 1_480, 2_050, 760]
    const logs = waits.map(Math.log)
    const times = waits.reduce((sum, ms) => withTime(sum, ms), NO_TIMES)
    expect(times.count).toBe(6)
    expect(times.mean).toBeCloseTo(jstat.mean(logs), 12)
    expect(times.squares).toBeCloseTo(jstat.variance(logs) * 6, 12)
  })

  it('count a time in part as a weighted mean does', () => {
    const times = withTime(withTime(NO_TIMES, 1_000), 2_000, 0.25)
    expect(times.count).toBe(1.25)
    expect(times.mean).toBeCloseTo((Math.log(1_000) + 0.25 * Math.log(2_000)) / 1.25, 12)
  })

  it('put the threshold between the two medians, and tell the errors that there are', () => {
    // A thousand answers each outweigh what is usual: medians 1,200 and 400 ms, spread 0.4.
    const at = (median: number) => ({ count: 1_000, mean: Math.log(median), squares: 999 * 0.4 ** 2 })
    const { value } = modelsOf({ value: at(1_200), state: NO_TIMES, word: at(400) })
    expect(value.lookedMs).toBeCloseTo(1_200, -1)
    expect(value.quickMs).toBeCloseTo(400, -1)
    expect(value.thresholdMs).toBeCloseTo(Math.sqrt(1_200 * 400), -1)
    // ln 3 in spreads of 0.4 is 2.75; half of it below the mean lie 8.5 in 100.
    expect(value.errorRate).toBeCloseTo(0.085, 2)
    expect(likelihoodRatio(value, value.thresholdMs)).toBeCloseTo(1, 6)
    const density = (ms: number, median: number) => Math.exp(-(Math.log(ms / median) ** 2) / (2 * value.spread ** 2))
    expect(likelihoodRatio(value, 300)).toBeCloseTo(density(300, value.quickMs) / density(300, value.lookedMs), 6)
  })
})

describe('of whole logs with 40 of 100 answers without a look', () => {
  it.each<[string, Pilot, number]>([
    ['the usual pilot', USUAL, 0],
    ['after four runs', USUAL, 4],
    ['slow, and as steady', { value: 2_200, state: 1_600, word: 700, spread: 0.25 }, 0],
    ['quick by nature, and as steady', { value: 850, state: 700, word: 300, spread: 0.25 }, 0],
    ['with a tail to the long side', { ...USUAL, spread: 0.3, shape: 'exGaussian' }, 0],
    ['less steady', { ...USUAL, spread: 0.28 }, 0],
  ])('nine in ten are told rightly, of both kinds: %s', (_who, pilot, earlier) => {
    const { sensitivity, specificity } = outcome(pilot, 0.4, earlier)
    expect(sensitivity).toBeGreaterThanOrEqual(0.9)
    expect(specificity).toBeGreaterThanOrEqual(0.9)
  })

  it('a pilot whose times vary much is told so, or told with the errors that come with it', () => {
    const { sensitivity, specificity } = outcome({ ...USUAL, spread: 0.5 })
    expect(sensitivity).toBeLessThan(0.9)
    expect(specificity).toBeGreaterThan(0.8)
  })

  it('hardly an answer is called quick where a look takes hardly longer than none', () => {
    expect(outcome({ value: 600, state: 550, word: 450, spread: 0.3 }).called).toBeLessThan(0.2)
  })

  it('who always looks is not called quick, run after run', () => {
    expect(outcome(USUAL, 0, 5).specificity).toBeGreaterThanOrEqual(0.93)
  })
})

describe('a run', () => {
  const next = () => numbers(1)

  it('without a calibration says that it does not know, and how to calibrate', () => {
    const { looks } = debriefOf(LONG, flown(USUAL, 0.4, next(), undefined).events)
    expect(looks.isCalibrated).toBe(false)
    expect(looks.answers).toHaveLength(ITEMS)
    expect(looksWords(looks)).toEqual([
      'Not known yet. 24 waits were measured, and there is nothing to hold them against. The sound check measures your times by its eight lines; runs after that tell.',
    ])
  })

  it('measures from the end of the challenge to the onset, of the first answer to it', () => {
    const { events } = flown(USUAL, 0, next(), undefined)
    const [first] = events.filter(({ type }) => type === 'answered')
    if (first?.type !== 'answered') throw new Error('something was answered')
    const evidence = { ...first.evidence, saidUntil: 5_000, beganAt: 5_930 }
    const waits = (changed: typeof events) => debriefOf(LONG, changed).looks.answers.map(({ ms }) => ms)
    const swapped = (more: object) => events.map((one) => (one === first ? { ...first, ...more } : one))
    expect(waits(swapped({ evidence }))[0]).toBe(930)
    // Typed, or without the time at which the challenge ended: nothing is known.
    expect(waits(swapped({ evidence: { ...evidence, by: 'typed' } }))).toHaveLength(ITEMS - 1)
    const { saidUntil: _, ...unknown } = evidence
    expect(waits(swapped({ evidence: unknown }))).toHaveLength(ITEMS - 1)
    // Misheard, it tells nothing; nor does the second saying, which needs no second look.
    const misheard = swapped({ judgement: { verdict: 'sayAgain', parts: [] } })
    expect(waits(misheard.slice(0, 4))).toEqual([])
  })

  it('too few lines of a sound check are no calibration', () => {
    expect(calibratedBy({ value: [900, 900, 900], word: [400, 400] })).toBeUndefined()
    expect(calibratedBy({ value: [900, 900, 900, 900], word: [] })).toBeUndefined()
    expect(calibratedBy({ value: [900, 900, 900, 20], word: [400] })).toBeUndefined()
    expect(calibratedBy({ value: [900, 900, 900, 900], word: [400] })?.value.count).toBe(4)
  })
})
