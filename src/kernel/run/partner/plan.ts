/**
 * What goes before an event: a fault that the partner will make in what follows from it, or an interruption. Each is an
 * event of its own and is stored before anything of it is said. What follows is known by taking the step on trial.
 */

import { plausibleMistake } from '../../kinds/table.ts'
import type { Item, Pack } from '../../pack/checklist.ts'
import { findItem, itemsOf } from '../../pack/place.ts'
import { seeded } from '../../seeded.ts'
import type { EventBody, RunEvent } from '../core/events.ts'
import { nextInList } from '../core/moving.ts'
import { isClosed } from '../core/progress.ts'
import type { RunState } from '../core/state.ts'
import { step } from '../core/step.ts'
import { callSignFor } from '../talk/callSign.ts'
import { saidValues } from '../talk/said.ts'
import { slipsOf } from '../talk/script.ts'
import { exchangesOf, findTurn } from '../talk/talk.ts'
import { chancesBetween, figuresAnswered } from './chances.ts'
import { answerFault, chanceOf } from './draw.ts'
import { BREAKERS, type Fault, GRADES, type PlannedBreak } from './model.ts'
import { isGoneBy, partnerOf, withPartnerState } from './partner.ts'
import { radioFault } from './radioFault.ts'

/** Events that the partner says something after, or says itself. */
const AFTER: ReadonlySet<string> = new Set([
  ...['answered', 'confirmedByKey', 'challenged', 'accepted', 'transmitted', 'radioed'],
])

/** To be stored before this event; empty where nothing is dealt. */
export function plannedBefore(pack: Pack, state: RunState, event: RunEvent): readonly EventBody[] {
  const { partner, breaks } = state.settings
  const isOrdered = partnerOf(state).ordered !== undefined
  if ((!partner && !breaks && !isOrdered) || !AFTER.has(event.type)) return []
  const after = step(pack, state, event).state
  const pause = breakFor(pack, state, after)
  const fault =
    faultFor(pack, state, after, event) ?? (pause?.by === 'radio' ? callFault(pack, state, pause) : undefined)
  // One thing at a time: nobody is interrupted where something is wrong already.
  const isAlone = fault === undefined || fault.kind === 'otherCallSign'
  return [
    ...(fault ? [{ type: 'faultPlanned', fault } as const] : []),
    ...(pause && isAlone ? [{ type: 'breakPlanned', ...pause } as const] : []),
  ]
}

/** The first chance of those that this event brings which is dealt a fault. */
function faultFor(pack: Pack, before: RunState, after: RunState, event: RunEvent): Fault | undefined {
  const { ordered } = partnerOf(before)
  const partner = ordered === undefined ? before.settings.partner : { seed: ordered, rate: 1 }
  if (!partner) return undefined
  for (const { kind, about } of chancesBetween(pack, before, after, event)) {
    const name = `${kind} ${about}`
    // Whoever was caught does not err again in the same place.
    if (partnerOf(before).chances.some((one) => one.fault && `${one.kind} ${one.fault.about}` === name)) continue
    const chance = chanceOf(partner.seed, name)
    if (chance.next() >= partner.rate) continue
    const fault =
      kind === 'answer'
        ? answerFault(pack, before, about, figuresAnswered(pack, before, event), chance)
        : kind === 'station'
          ? stationFault(pack, before, about, chance.below(2 ** 31))
          : kind === 'colleague'
            ? radioFault(pack, before, about, chance)
            : kind === 'move'
              ? moveFault(pack, before, after, about, chance.next() < EARLY_SHARE)
              : undefined
    if (fault) return fault
  }
  return undefined
}

/** Where a list is about to end, this share of what goes wrong is its end called too early. */
const EARLY_SHARE = 0.5
/** More items left than these are noticed by anybody. */
const MOST_LEFT = 2

/** The next item is gone by; where few are left, the list may be called complete instead. */
function moveFault(pack: Pack, before: RunState, after: RunState, id: string, isEarly: boolean): Fault | undefined {
  const { item, list } = findItem(pack, id)
  const left = itemsOf(list, after).filter((one) => !isClosed(after, one.id) && !isGoneBy(after, one.id))
  if (left.some((one) => isAwaited(pack, one))) return undefined
  const without = (items: readonly Item[]) =>
    nextInList(
      pack,
      withPartnerState(after, { goneBy: [...partnerOf(after).goneBy, ...items.map((one) => one.id)] }),
      list.id,
    )
  const wasEarly = partnerOf(before).chances.some(
    ({ fault }) => fault?.kind === 'completeEarly' && fault.about === list.id,
  )
  if (!wasEarly && left.length <= MOST_LEFT && (isEarly || left.length === 1) && without(left) === undefined) {
    const grade = left.length === 1 ? 'hard' : 'middling'
    return { kind: 'completeEarly', grade, about: list.id, items: left.map((one) => one.id) }
  }
  // Where the pilot calls the items, Otherseat cannot skip one.
  if (before.settings.roles === 'pilotChallenges' || item.memory || without([item])?.at !== 'item') return undefined
  return { kind: 'skipped', grade: item.critical ? 'obvious' : 'middling', about: id, items: [id] }
}

/** Something else waits for it, and would tell that it was left out. */
function isAwaited({ phases }: Pack, { id }: Item): boolean {
  const locks = phases
    .flatMap(({ activities }) => activities)
    .flatMap((one) => {
      const own = 'interlocks' in one ? (one.interlocks ?? []) : []
      const parts = 'turns' in one ? one.turns : 'entries' in one ? one.entries : 'steps' in one ? one.steps : []
      return [...own, ...parts.flatMap((part) => ('interlocks' in part ? (part.interlocks ?? []) : []))]
    })
  return locks.some(({ after }) => after === id)
}

function stationFault(pack: Pack, state: RunState, id: string, seed: number): Fault | undefined {
  const { turn } = findTurn(pack, id)
  const values = saidValues(state)
  const slips = slipsOf(pack, turn, state, values)
  const slip = slips[seed % Math.max(1, slips.length)]
  const spec = slip && pack.figures.declarations[slip.figure]?.spec
  const right = slip && values[slip.figure]
  const said = spec && right !== undefined ? plausibleMistake(spec, right, seeded(seed)) : undefined
  if (!slip || said === undefined || right === undefined) return undefined
  return { kind: 'readBack', grade: 'middling', about: id, figure: slip.figure, said, right, seed }
}

/** The item that is open after it, with an interruption where one is dealt. */
function breakFor(pack: Pack, before: RunState, after: RunState): PlannedBreak | undefined {
  const { breaks } = before.settings
  const { floor } = after
  if (!breaks || floor.at !== 'item' || after.question) return undefined
  const isNew = before.floor.at !== 'item' || before.floor.item !== floor.item || isNowAnswered(before, after)
  if (!isNew || partnerOf(before).breaks.some(({ item }) => item === floor.item)) return undefined
  const chance = chanceOf(breaks.seed, `break ${floor.item}`)
  if (chance.next() >= breaks.rate) return undefined
  const by = chance.pick(
    BREAKERS.filter((one) => one !== 'radio' || (before.script && ownCallSign(pack) !== undefined)),
  )
  const cue = breaks.cues === 'mixed' ? chance.next() < 0.5 : breaks.cues === 'with'
  return { item: floor.item, by, cue }
}

const isNowAnswered = (before: RunState, after: RunState) =>
  after.partner?.answered !== undefined && after.partner.answered !== before.partner?.answered

const ownCallSign = (pack: Pack) => exchangesOf(pack).flatMap((one) => callSignFor(pack, one) ?? [])[0]

/** The call on the radio is for somebody with a like call sign. */
function callFault(pack: Pack, state: RunState, { item }: PlannedBreak): Fault | undefined {
  const { partner } = state.settings
  const figure = ownCallSign(pack)
  const right = figure === undefined ? undefined : saidValues(state)[figure]
  const spec = figure === undefined ? undefined : pack.figures.declarations[figure]?.spec
  if (!partner || figure === undefined || right === undefined || !spec) return undefined
  const chance = chanceOf(partner.seed, `call ${item}`)
  if (chance.next() >= partner.rate) return undefined
  const said = plausibleMistake(spec, right, chance)
  return said === undefined ? undefined : { kind: 'otherCallSign', grade: GRADES[2], about: item, figure, said, right }
}
