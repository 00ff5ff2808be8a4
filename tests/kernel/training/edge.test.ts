import { describe, expect, it } from 'vitest'
import { seeded } from '../../../src/kernel/seeded.ts'
import { BLOCK, edgeOf, type LengthTrial, LONGEST, nextLengths, SHORTEST } from '../../../src/kernel/training/edge.ts'

const LISTENERS = 200
const BLOCKS_A_DAY = 4

/**
 * A listener of our own making: half of what is `edge` elements long is right, with a slope and lapses that the estimate
 * does not know.
 */
interface Listener {
  readonly edge: number
  readonly slope: number
  readonly lapses: number
}

/** `before`: what is known of the listener by then; lengths go by it, as they do in the app. */
function dayOf({ edge, slope, lapses }: Listener, seed: number, before: readonly LengthTrial[] = []): LengthTrial[] {
  const chance = seeded(seed)
  const trials: LengthTrial[] = []
  for (let block = 0; block < BLOCKS_A_DAY; block++) {
    for (const elements of nextLengths(edgeOf([...before, ...trials]), chance)) {
      const share = (1 - lapses) / (1 + Math.exp((elements - edge) / slope))
      trials.push({ elements, right: chance.next() < share })
    }
  }
  return trials
}

const LISTENED = Array.from({ length: LISTENERS }, (_, at) => {
  const chance = seeded(9_000 + at)
  const listener = {
    edge: 2 + 5.5 * chance.next(),
    slope: 0.35 + 0.7 * chance.next(),
    lapses: 0.06 * chance.next(),
  }
  const first = dayOf(listener, 2 * at)
  const second = dayOf(listener, 2 * at + 1, first)
  return { listener, days: [edgeOf(first), edgeOf(second)] }
})

const share = (is: (one: (typeof LISTENED)[number]) => boolean) => LISTENED.filter(is).length / LISTENERS

describe('the edge of a simulated listener', () => {
  it('repeats within one element on a second day, each day from its own 24 read-backs', () => {
    const isNear = ({ days: [first, second] }: (typeof LISTENED)[number]) =>
      Math.abs((first?.value ?? 0) - (second?.value ?? 99)) <= 1
    expect(share(isNear)).toBeGreaterThanOrEqual(0.95)
  })

  it('is within one element of the true one, and within its own bounds about as often as they claim', () => {
    expect(share(({ listener, days }) => Math.abs((days[0]?.value ?? 99) - listener.edge) <= 1)).toBeGreaterThanOrEqual(
      0.95,
    )
    const isBound = ({ listener: { edge }, days: [day] }: (typeof LISTENED)[number]) =>
      day !== undefined && day.low - 0.05 <= edge && edge <= day.high + 0.05
    expect(share(isBound)).toBeGreaterThanOrEqual(0.9)
  })

  it('is where it trains: about half of the read-backs of a second day are right', () => {
    const rights = LISTENED.map(({ listener }, at) => {
      const trials = dayOf(listener, 50_000 + at).slice(BLOCK)
      return trials.filter(({ right }) => right).length / trials.length
    })
    const mean = rights.reduce((sum, one) => sum + one, 0) / LISTENERS
    expect(mean).toBeGreaterThan(0.4)
    expect(mean).toBeLessThan(0.65)
  })
})

describe('the edge', () => {
  it('is wide open before the first read-back, and never beyond what can be put', () => {
    expect(edgeOf([])).toMatchObject({ n: 0 })
    expect(edgeOf([]).high - edgeOf([]).low).toBeGreaterThan(5)
    const all = Array.from({ length: 60 }, () => ({ elements: LONGEST, right: true }))
    const none = Array.from({ length: 60 }, () => ({ elements: SHORTEST, right: false }))
    const lengths = [all, none].flatMap((trials) => nextLengths(edgeOf(trials), seeded(1)))
    expect(Math.max(...lengths)).toBe(LONGEST)
    expect(Math.min(...lengths)).toBe(SHORTEST)
  })

  it('rests on the last trials: a pilot who has learnt is not held at what was', () => {
    const before = Array.from({ length: 60 }, () => ({ elements: 3, right: false }))
    const since = Array.from({ length: 60 }, () => ({ elements: 6, right: true }))
    expect(edgeOf([...before, ...since]).value).toBeGreaterThan(6)
  })
})
