/**
 * What is due: a card for each item, read-back, flow from memory and card reading of every pack that was flown, spaced by
 * FSRS (`ts-fsrs`). Every trial of a run or a drill reviews its card. The state follows from the facts of the runs in their
 * order, so what is kept of it is a cache and no more.
 */

import { type FSRS, fsrs } from 'ts-fsrs'
import { medianOf } from '../../kernel/statistics/intervals.ts'
import type { RunFacts, Trial } from '../../kernel/training/facts.ts'
import { type Card, type CardKind, type Deck, DRILL_S, type NextDue } from './training.ts'

/** A deck kept by another edition is made anew. */
export const DECK_EDITION = 2

const DAY_MS = 86_400_000
/** Who trains in the evening and again the next afternoon finds what is due that evening. */
const AHEAD_MS = DAY_MS / 2
/** Of what is asked when it is due, this share is to be known. */
const RECALL = 0.92
/**
 * What the scheduler is asked for, so that it is: who forgets faster than its average learner is asked sooner. Each due
 * answer moves it by so much, for each day since the last, of how far it was from what was wanted (stochastic approximation: Robbins and Monro 1951,
 * Annals of Mathematical Statistics 22; from memory).
 */
const STEP = 0.002
const LEAST_ASKED_FOR = 0.85
const MOST_ASKED_FOR = 0.99
/** Of the times of a class. */
const KEPT_TIMES = 40
/** Slower than so many times the pilot's own median is recall with effort; quicker than so much of it comes by itself. */
const SLOW = 2
const QUICK = 0.6
/** Before that there is no time of one's own to go by. */
const TIMES_AT_LEAST = 8

/** What nobody has asked for a month is asked all the same: the algorithm was not fitted to pilots. */
const LONGEST_DAYS = 30

const AGAIN = 1
const HARD = 2
const GOOD = 3
const EASY = 4

export const EMPTY_DECK: Deck = { edition: DECK_EDITION, runs: [], cards: {}, times: {}, askedFor: RECALL }

const schedulers = new Map<number, FSRS>()

/** One for each per cent: making them is what takes time. */
function schedulerFor(recall: number): FSRS {
  const asked = Math.round(recall * 100) / 100
  const made = schedulers.get(asked)
  if (made) return made
  const options = { enable_fuzz: false, enable_short_term: false, maximum_interval: LONGEST_DAYS }
  const scheduler = fsrs({ request_retention: asked, ...options })
  schedulers.set(asked, scheduler)
  return scheduler
}
const scheduler = schedulerFor(RECALL)

const KINDS: Partial<Record<Trial['of'], CardKind>> = {
  value: 'item',
  word: 'item',
  readBack: 'readBack',
  flow: 'flow',
  reading: 'reading',
}

export const cardKey = ({ packId, kind, id }: Pick<Card, 'packId' | 'kind' | 'id'>) => `${packId} ${kind} ${id}`

/** `own`: the pilot's median time for this class, ms. What was given before the answer was not recalled. */
export function ratingOf(
  { right, helped, ms }: Pick<Trial, 'right' | 'helped' | 'ms'>,
  own: number | undefined,
): number {
  if (!right || helped) return AGAIN
  if (ms === undefined || own === undefined) return GOOD
  if (ms > SLOW * own) return HARD
  return ms < QUICK * own ? EASY : GOOD
}

/** The deck after these runs. What is kept of an earlier one is gone on from where it fits. */
export function deckOf(facts: readonly RunFacts[], kept: Deck = EMPTY_DECK): Deck {
  const inOrder = [...facts].sort((one, other) => one.startedAt - other.startedAt)
  const isFit = kept.edition === DECK_EDITION && kept.runs.every((runId, index) => inOrder[index]?.runId === runId)
  const from = isFit ? kept : EMPTY_DECK
  const cards = { ...from.cards }
  const times: Record<string, readonly number[]> = { ...from.times }
  let { askedFor } = from
  for (const run of inOrder.slice(from.runs.length)) {
    const own = Object.fromEntries(
      Object.entries(times).map(([of, some]) => [of, some.length < TIMES_AT_LEAST ? undefined : medianOf(some).value]),
    )
    // Made-up transmissions never come again.
    for (const trial of run.dial ? [] : run.trials) {
      const kind = KINDS[trial.of]
      if (!kind) continue
      const { packId, startedAt } = run
      const key = cardKey({ packId, kind, id: trial.card })
      const card = { packId, kind, id: trial.card }
      const [at, rating, before] = [startedAt + trial.t, ratingOf(trial, own[trial.of]), cards[key]]
      if (before && isDue(before, at))
        askedFor = askedForAfter(askedFor, rating !== AGAIN, (at - before.reviewedAt) / DAY_MS)
      cards[key] = reviewed(card, before, at, rating, askedFor)
      if (trial.ms !== undefined) times[trial.of] = [...(times[trial.of] ?? []), trial.ms].slice(-KEPT_TIMES)
    }
  }
  return { edition: DECK_EDITION, runs: inOrder.map(({ runId }) => runId), cards, times, askedFor }
}

const isDue = ({ dueAt }: Card, now: number) => dueAt <= now + AHEAD_MS

function askedForAfter(askedFor: number, isKnown: boolean, days: number): number {
  const next = askedFor + STEP * days * (RECALL - Number(isKnown))
  return Math.min(MOST_ASKED_FOR, Math.max(LEAST_ASKED_FOR, next))
}

function reviewed(
  card: Pick<Card, 'packId' | 'kind' | 'id'>,
  before: Card | undefined,
  at: number,
  rating: number,
  askedFor: number,
): Card {
  const elapsed = before ? Math.max(0, (at - before.reviewedAt) / DAY_MS) : 0
  const { stability, difficulty } = scheduler.next_state(before ?? null, elapsed, rating)
  const days = schedulerFor(askedFor).next_interval(stability, elapsed)
  return { ...card, stability, difficulty, reviewedAt: at, dueAt: at + days * DAY_MS }
}

/** How likely the card is recalled now, 0 to 1. */
export const recallOf = ({ stability, reviewedAt }: Card, now: number) =>
  scheduler.forgetting_curve(Math.max(0, now - reviewedAt) / DAY_MS, stability)

/** What is due today, the least sure first. */
export function dueCards({ cards }: Deck, now: number): Card[] {
  return Object.values(cards)
    .filter((card) => isDue(card, now))
    .sort((one, other) => recallOf(one, now) - recallOf(other, now))
}

/** What comes up first of what is not due yet, and how many with it within a day. Undefined where nothing will. */
export function nextDue(cards: readonly Card[], now: number): NextDue | undefined {
  const ahead = cards.map(({ dueAt }) => dueAt - AHEAD_MS).filter((at) => at > now)
  if (ahead.length === 0) return undefined
  const at = Math.min(...ahead)
  return { at, count: ahead.filter((one) => one < at + DAY_MS / 2).length }
}

/** About how long one of each takes, s. */
const TAKES_S: Readonly<Record<CardKind, number>> = { item: 12, readBack: 35, flow: 45, reading: 45 }
/** As many of the due cards of one pack as five minutes hold; the pack with the most. */
export function cardsForDrill(due: readonly Card[]): Card[] {
  const counts = new Map<string, number>()
  for (const { packId } of due) counts.set(packId, (counts.get(packId) ?? 0) + 1)
  const [most] = [...counts].sort(([, one], [, other]) => other - one)
  let left = DRILL_S
  return due.filter(({ packId, kind }) => {
    if (packId !== most?.[0] || left < TAKES_S[kind]) return false
    left -= TAKES_S[kind]
    return true
  })
}
