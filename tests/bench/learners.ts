/**
 * Simulated learners under three schedules: what is due by the app's own deck, every card every day, and fixed gaps of 1, 3,
 * 7 and then 14 days. Two published curves of forgetting, neither of them FSRS's own:
 *
 * - `activation`: Pavlik and Anderson 2005 (Cognitive Science 29): strength is the log of the sum of t^-d over all trials,
 *   each d growing with the strength at its trial, so that crowded trials fade sooner; their parameters, and time between
 *   sessions running at 0.025 of the clock (from memory).
 * - `halfLife`: Settles and Meeder 2016 (ACL): 2^(-t/h), h doubled by each right and halved by each wrong trial, as their
 *   paper has Leitner's boxes (from memory), from one day on.
 *
 * Assumed besides: a miss is told what was right and counts as a trial; cards and learners differ in the log of strength, or
 * in h, by normal draws; no trial has a time. A trial a card a day at most.
 */

import { deckOf, dueCards, EMPTY_DECK } from '../../src/app/training/deck.ts'
import type { Deck } from '../../src/app/training/training.ts'
import { type Seeded, seeded } from '../../src/kernel/seeded.ts'
import { FACTS_EDITION } from '../../src/kernel/training/facts.ts'

const DAY_MS = 86_400_000
const DAYS = 90
/** Recall is judged over the last days, when learning is behind. */
const JUDGED_DAYS = 45
const CARDS = 40
export const LEARNERS = 10

export const CURVES = ['activation', 'halfLife'] as const
export type Curve = (typeof CURVES)[number]
export const SCHEDULES = ['due', 'daily', 'fixed'] as const
export type Schedule = (typeof SCHEDULES)[number]

interface Memory {
  recall(day: number): number
  trial(day: number, right: boolean): void
}

const DECAY = { intercept: 0.177, scale: 0.217, threshold: -0.704, noise: 0.255, betweenSessions: 0.025 }

function activation(offset: number): Memory {
  const trials: { readonly day: number; readonly decay: number }[] = []
  const strength = (day: number) => {
    const sum = trials.reduce((so, one) => {
      const seconds = Math.max(1, (day - one.day) * 86_400 * DECAY.betweenSessions)
      return so + seconds ** -one.decay
    }, 0)
    return Math.log(sum)
  }
  return {
    recall: (day) => 1 / (1 + Math.exp((DECAY.threshold - offset - strength(day)) / DECAY.noise)),
    trial(day) {
      trials.push({ day, decay: DECAY.scale * Math.exp(strength(day)) + DECAY.intercept })
    },
  }
}

function halfLife(offset: number): Memory {
  let [power, last] = [offset, -1]
  return {
    recall: (day) => (last < 0 ? 0 : 2 ** (-(day - last) / 2 ** power)),
    trial(day, right) {
      power = Math.max(-2, power + (last < 0 ? 0 : right ? 1 : -1))
      last = day
    },
  }
}

const normal = (chance: Seeded) => Math.sqrt(-2 * Math.log(1 - chance.next())) * Math.cos(2 * Math.PI * chance.next())

export interface Learned {
  /** Mean over cards and the judged days, before the day's trials. */
  readonly recall: number
  readonly trials: number
}

/** One learner, who starts with one look at every card on the first day. */
export function learn(curve: Curve, schedule: Schedule, seed: number): Learned {
  const chance = seeded(seed)
  const own = 0.2 * normal(chance)
  const memories = Array.from({ length: CARDS }, () =>
    (curve === 'activation' ? activation : halfLife)(own + 0.2 * normal(chance)),
  )
  let deck: Deck = EMPTY_DECK
  const gaps = [1, 3, 7, 14]
  const times = memories.map(() => ({ next: 0, count: 0 }))
  let [trials, sum] = [0, 0]
  for (let day = 0; day < DAYS; day++) {
    if (day >= DAYS - JUDGED_DAYS) sum += memories.reduce((so, memory) => so + memory.recall(day), 0)
    const due = new Set(schedule === 'due' ? dueCards(deck, day * DAY_MS).map(({ id }) => Number(id)) : [])
    const asked = memories.flatMap((memory, card) => {
      const isAsked =
        day === 0 || schedule === 'daily' || (schedule === 'due' ? due.has(card) : (times[card]?.next ?? 0) <= day)
      return isAsked ? [{ card, memory }] : []
    })
    const told = asked.map(({ card, memory }) => {
      const right = day > 0 && chance.next() < memory.recall(day)
      memory.trial(day, right)
      const time = times[card]
      if (time) time.next = day + (gaps[Math.min(time.count++, gaps.length - 1)] ?? 14)
      return { of: 'value', card: `${card}`, t: 0, right } as const
    })
    trials += told.length
    const facts = { edition: FACTS_EDITION, runId: `${day}`, packId: 'p', startedAt: day * DAY_MS, trials: told }
    deck = schedule === 'due' ? after(deck, { ...facts, resumptions: [], planted: [] }) : deck
  }
  return { recall: sum / (CARDS * JUDGED_DAYS), trials }
}

/** As if the days before were not in it: each day is folded once. */
function after(deck: Deck, day: Parameters<typeof deckOf>[0][number]): Deck {
  return { ...deckOf([day], { ...deck, runs: [] }), runs: [] }
}

/** Over learners of seeds one after another. */
export function learnedBy(curve: Curve, schedule: Schedule, seed = 1): Learned {
  const all = Array.from({ length: LEARNERS }, (_, index) => learn(curve, schedule, seed + index))
  const mean = (of: (one: Learned) => number) => all.reduce((so, one) => so + of(one), 0) / all.length
  return { recall: mean(({ recall }) => recall), trials: mean(({ trials }) => trials) }
}
