/**
 * How often the partner errs: dense at first, and rarer as the pilot's own sensitivity allows, down to about what happens
 * in earnest. Of rare faults more are missed than of frequent ones (Wolfe, Horowitz & Kenner 2005, Nature 435, 439-440;
 * from memory), so what is caught is told by how rare it was, and never as one number.
 */

import { type Estimate, shareOf } from '../../statistics/intervals.ts'
import { type Counts, sensitivityOf } from './sensitivity.ts'

/** Shares of the chances that hold a fault, from dense to rare. The last is our guess at real life: no source. */
export const DOSES = [0.4, 0.25, 0.15, 0.08, 0.04, 0.02] as const

/** One run, or several, at one dose. */
export interface Dosed extends Counts {
  readonly rate: number
}

/** Fewer faults than these tell nothing. */
const ENOUGH = 6
/** Sure of himself at this dose, or lost at it. */
const RARER_FROM = 2
const DENSER_BELOW = 1

/** The dose of the next run, from all runs so far, oldest first. */
export function nextDose(past: readonly Dosed[]): number {
  let at = 0
  let here: Counts = NONE
  for (const one of past) {
    if (one.rate !== DOSES[at]) continue
    here = sum(here, one)
    if (here.faults < ENOUGH) continue
    const { dPrime = 0 } = sensitivityOf(here)
    const by = dPrime >= RARER_FROM ? 1 : dPrime < DENSER_BELOW ? -1 : 0
    at = Math.min(DOSES.length - 1, Math.max(0, at + by))
    if (by !== 0) here = NONE
  }
  return DOSES[at] ?? DOSES[0]
}

/** What was caught at each dose that was flown, the densest first. */
export function caughtByDose(past: readonly Dosed[]): { readonly dose: number; readonly caught: Estimate }[] {
  return DOSES.flatMap((dose) => {
    const { faults, caught } = past.filter(({ rate }) => rate === dose).reduce(sum, NONE)
    return faults === 0 ? [] : [{ dose, caught: shareOf(caught, faults) }]
  })
}

const NONE: Counts = { faults: 0, caught: 0, sound: 0, falseObjections: 0 }

const sum = (one: Counts, other: Counts): Counts => ({
  faults: one.faults + other.faults,
  caught: one.caught + other.caught,
  sound: one.sound + other.sound,
  falseObjections: one.falseObjections + other.falseObjections,
})
