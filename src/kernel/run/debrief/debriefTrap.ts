/** The trap of a departure that was drawn, and whether the pilot caught it, from the log alone. */

import type { Trap } from '../../figures/deal.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import { clockTime } from '../core/clockTime.ts'
import type { Moment } from './tally.ts'

export interface DebriefTrap {
  /** What it was. */
  readonly told: string
  /** Undefined where nothing of it was said on final figures: nobody can say. */
  readonly caught?: boolean
  /** How it went, in one sentence. */
  readonly how: string
}

interface First {
  readonly t: number
  readonly about: string
  readonly text: string
  readonly isRight: boolean
}

/**
 * Caught where the stale sheet was not chosen and, once the final figures were in, all that says a figure of the trap was
 * right at its first try.
 */
export function trapIn(pack: Pack, moments: readonly Moment[], { kind, figures, told }: Trap): DebriefTrap {
  const rule = pack.figures.basis?.deal?.traps.find((one) => one.kind === kind)
  const settled = rule && moments.at(-1)?.after.inputs?.settled?.[rule.figure]
  if (settled !== undefined && settled.use === rule?.source) {
    return { told, caught: false, how: 'You settled on the sheet that was wrong: not caught.' }
  }
  const firsts = firstsIn(pack, moments, figures)
  const [first] = firsts
  const wrong = firsts.find(({ isRight }) => !isRight)
  if (wrong) {
    const { t, about, text } = wrong
    const how = `At ${clockTime(t)} you said “${text}” at ${about} first, with the final figures in: not caught at first.`
    return { told, caught: false, how }
  }
  if (!first) return { told, how: 'Nothing of it was answered on the final figures.' }
  return { told, caught: true, how: `Caught at ${clockTime(first.t)}: “${first.text}” at ${first.about}.` }
}

/** What was first said of a figure of the trap, at each place: own values and answers to items. */
function firstsIn(pack: Pack, moments: readonly Moment[], figures: readonly string[]): First[] {
  const firsts = new Map<string, First>()
  for (const { event, before } of moments) {
    if (before.figureStatus === 'preliminary') continue
    if (event.type === 'ownValueSaid' && figures.includes(event.figure) && !firsts.has(event.figure)) {
      const about = pack.figures.declarations[event.figure]?.label ?? event.figure
      firsts.set(event.figure, { t: event.t, about, text: event.evidence.text, isRight: event.isRight })
    }
    if (event.type !== 'answered' || firsts.has(event.item) || event.revision !== before.revision) continue
    const { verdict } = event.judgement
    if (verdict === 'sayAgain' || verdict === 'command') continue
    if (!Object.keys(event.expected).some((name) => figures.includes(name))) continue
    const about = findItem(pack, event.item).item.challenge
    firsts.set(event.item, { t: event.t, about, text: event.evidence.text, isRight: verdict === 'correct' })
  }
  return [...firsts.values()]
}
