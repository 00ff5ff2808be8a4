import { describe, expect, it } from 'vitest'
import { cardsForDrill, deckOf, dueCards, EMPTY_DECK, nextDue, ratingOf } from '../../../src/app/training/deck.ts'
import { FACTS_EDITION, type RunFacts, type Trial } from '../../../src/kernel/training/facts.ts'
import { learnedBy } from '../../bench/learners.ts'
import { madeUpRuns } from '../../kernel/training/madeUp.ts'

const DAY_MS = 86_400_000

function run(day: number, trials: readonly Partial<Trial>[], packId = 'p'): RunFacts {
  const whole = trials.map((trial) => ({ of: 'value', card: 'a.b', t: 0, right: true, ...trial }) as const)
  const empty = { edition: FACTS_EDITION, resumptions: [], planted: [] }
  return { ...empty, runId: `${packId} ${day}`, packId, startedAt: day * DAY_MS, trials: whole }
}

describe('the rating of a trial', () => {
  it('goes by right or not, help, and the pilot’s own time', () => {
    const right = { right: true, ms: 2_000 }
    expect(ratingOf({ right: false, ms: 500 }, 2_000)).toBe(1)
    expect(ratingOf({ ...right, helped: true }, 2_000)).toBe(1)
    expect(ratingOf({ ...right, ms: 4_500 }, 2_000)).toBe(2)
    expect(ratingOf(right, 2_000)).toBe(3)
    expect(ratingOf({ ...right, ms: 900 }, 2_000)).toBe(4)
    // Without a time, or a past to compare it with, right is just right.
    expect(ratingOf({ right: true }, 2_000)).toBe(3)
    expect(ratingOf({ ...right, ms: 60_000 }, undefined)).toBe(3)
  })
})

describe('what is due', () => {
  it('comes later the oftener it was right, and the next day where it was not', () => {
    const daysTo = (runs: readonly RunFacts[]) => {
      const [card] = Object.values(deckOf(runs).cards)
      return card ? Math.round((card.dueAt - card.reviewedAt) / DAY_MS) : 0
    }
    const once = [run(0, [{}])]
    const twice = [...once, run(2, [{}])]
    const thrice = [...twice, run(13, [{}])]
    expect(daysTo(once)).toBeLessThan(daysTo(twice))
    expect(daysTo(twice)).toBeLessThan(daysTo(thrice))
    expect(daysTo([...twice, run(13, [{ right: false }])])).toBeLessThan(daysTo(twice))
    expect(daysTo([run(0, [{ right: false }])])).toBe(1)
  })

  it('has cards of items, read-backs, flows and card readings, and none of calls', () => {
    const trials = [
      { of: 'value', card: 'l.a' },
      { of: 'word', card: 'l.b' },
      { of: 'readBack', card: 'x.t' },
      { of: 'flow', card: 'f' },
      { of: 'reading', card: 'trim' },
      { of: 'exchange', card: 'x.t' },
      { of: 'watchCall', card: 'w.light up' },
    ] as const
    const due = dueCards(deckOf([run(0, trials)]), 30 * DAY_MS)
    expect(due.map(({ kind, id }) => `${kind} ${id}`).sort()).toEqual([
      'flow f',
      'item l.a',
      'item l.b',
      'readBack x.t',
      'reading trim',
    ])
  })

  it('says when the next come up, and how many with the first of them', () => {
    const deck = deckOf([run(0, [{ card: 'l.a' }, { card: 'l.b' }, { card: 'l.c', right: false }])])
    const cards = Object.values(deck.cards)
    const [first, second] = [...new Set(cards.map(({ dueAt }) => dueAt))].sort((one, other) => one - other)
    const now = (first ?? 0) - DAY_MS
    expect(nextDue(cards, now)).toEqual({ at: (first ?? 0) - DAY_MS / 2, count: 1 })
    expect(nextDue(cards, (first ?? 0) + 1)).toEqual({ at: (second ?? 0) - DAY_MS / 2, count: 2 })
    expect(nextDue(cards, (second ?? 0) + 1)).toBeUndefined()
  })

  it('of one pack only, the least sure first, as much as five minutes hold', () => {
    const many = Array.from({ length: 60 }, (_, index) => ({ card: `l.${index}` }))
    const deck = deckOf([run(0, [{ card: 'x.y' }], 'q'), run(0, many), run(1, [{ card: 'l.7', right: false }])])
    const cards = cardsForDrill(dueCards(deck, 40 * DAY_MS))
    expect(new Set(cards.map(({ packId }) => packId))).toEqual(new Set(['p']))
    expect(cards[0]?.id).toBe('l.7')
    expect(cards.length).toBe(25)
  })
})

describe('the deck that is kept', () => {
  const facts = madeUpRuns({ runs: 12, trials: 30 })

  it('is the same whether it is gone on with or made anew', () => {
    const kept = JSON.parse(JSON.stringify(deckOf(facts.slice(0, 7))))
    expect(kept?.runs).toHaveLength(7)
    expect(deckOf(facts, kept)).toEqual(deckOf(facts))
  })

  it('is made anew where a run has come in between, or has gone', () => {
    expect(deckOf(facts, deckOf(facts.slice(1, 7)))).toEqual(deckOf(facts))
    expect(deckOf(facts.slice(0, 5), deckOf(facts))).toEqual(deckOf(facts.slice(0, 5)))
  })
})

describe('simulated learners', () => {
  // Pavlik and Anderson's curve of forgetting; thirty learners that nothing was chosen on.
  it('recall nine in ten with at most 70 % of the trials of every day', () => {
    const [due, daily] = (['due', 'daily'] as const).map((schedule) => {
      const groups = [8001, 8101, 8201].map((seed) => learnedBy('activation', schedule, seed))
      const sum = (of: 'recall' | 'trials') => groups.reduce((so, group) => so + group[of], 0) / groups.length
      return { recall: sum('recall'), trials: sum('trials') }
    })
    expect(due?.recall).toBeGreaterThanOrEqual(0.9)
    expect(due?.trials ?? 0).toBeLessThanOrEqual(0.7 * (daily?.trials ?? 0))
  })

  it('are asked sooner where they forget faster than the algorithm expects, and later where they never do', () => {
    const day = (n: number) => n * 86_400_000
    const flown = (isRight: (run: number) => boolean) =>
      deckOf(
        Array.from({ length: 30 }, (_, run) => ({
          ...{ edition: FACTS_EDITION, runId: `${run}`, packId: 'p', startedAt: day(30 * run), resumptions: [] },
          trials: [{ of: 'value', card: 'a.trim', t: 0, right: isRight(run) } as const],
          planted: [],
        })),
      ).askedFor
    expect(flown((run) => run % 2 === 0)).toBeGreaterThan(EMPTY_DECK.askedFor)
    expect(flown(() => true)).toBeLessThan(EMPTY_DECK.askedFor)
  })
})
