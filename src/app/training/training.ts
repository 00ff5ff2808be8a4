/** What the screen of progress has: how the pilot comes on, what is due, and how the last drill went. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem, flowsOf } from '../../kernel/pack/place.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { findTurn } from '../../kernel/run/talk/talk.ts'
import type { RunFacts, Trial } from '../../kernel/training/facts.ts'
import type { Progress } from '../../kernel/training/progress.ts'

export const CARD_KINDS = ['item', 'readBack', 'flow', 'reading'] as const
export type CardKind = (typeof CARD_KINDS)[number]

export interface Card {
  readonly packId: string
  readonly kind: CardKind
  /** In its pack. */
  readonly id: string
  readonly stability: number
  readonly difficulty: number
  /** Clock times, ms since 1970. */
  readonly reviewedAt: number
  readonly dueAt: number
}

export interface Deck {
  readonly edition: number
  /** Runs that are in it, in their order. */
  readonly runs: readonly string[]
  readonly cards: Readonly<Record<string, Card>>
  /** The pilot's last times for each class of trial, ms. */
  readonly times: Readonly<Record<string, readonly number[]>>
  /** The share known when due that the scheduler is asked for, so that this pilot knows what is wanted. */
  readonly askedFor: number
}

export interface NextDue {
  /** Clock time, ms since 1970. */
  readonly at: number
  /** What comes up within half a day of it. */
  readonly count: number
}

export interface Training {
  /** Facts of blocks of read-backs alone. */
  readonly dials: readonly RunFacts[]
  readonly progress: Progress
  readonly unreadable: number
  readonly deck: Deck
  /** Of all packs, the least sure first, when it was looked up. */
  readonly due: readonly Card[]
  readonly next: NextDue | undefined
  /** Of one pack, as many as a drill holds. */
  readonly forDrill: readonly Card[]
  /** Why a drill could not begin. */
  readonly refused: string
}

export interface DrillTold {
  readonly asked: number
  readonly right: number
  /** Named, once each: what was not right at once. */
  readonly missed: readonly string[]
  readonly why: 'done' | 'timeUp' | 'ended'
  /** Of its run. */
  readonly runId: string
}

/** How a block of read-backs went. */
export interface DialTold {
  readonly asked: number
  readonly right: number
  readonly why: DrillTold['why']
  readonly runId: string
}

export const DRILL_S = 300

/** How a drill went, on its own pack. */
export function drillTold(
  pack: Pack,
  first: RunEvent | undefined,
  trials: readonly Trial[],
  why: DrillTold['why'],
): Omit<DrillTold, 'runId'> {
  const whole = Object.entries(first?.type === 'runStarted' ? (first.drill ?? {}) : {})
  const nameOf = ({ of, card }: Trial): string => {
    if (of === 'reading') return pack.figures.declarations[card]?.label ?? card
    if (of === 'flow') return flowsOf(pack).find(({ id }) => id === card)?.name ?? card
    if (of === 'readBack') return findTurn(pack, card).turn.label
    return findItem(pack, whole.find(([, id]) => id === card)?.[0] ?? card).item.challenge
  }
  const asked = trials.filter(({ of }) => of !== 'exchange' && of !== 'watchCall')
  const missed = asked.filter(({ right, helped }) => !right || helped)
  return { asked: asked.length, right: asked.length - missed.length, missed: [...new Set(missed.map(nameOf))], why }
}

export const countOf = (cards: readonly Card[], kind: CardKind): number =>
  cards.filter((card) => card.kind === kind).length
