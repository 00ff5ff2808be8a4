/** What a step brought of the partner: its chances, its faults, an interruption that comes in or is over. */

import { sayOnRadio } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { figuresFor, findItem } from '../../pack/place.ts'
import type { Effect, RunCommand, RunEvent } from '../core/events.ts'
import { timers } from '../core/listening.ts'
import { onsetOf } from '../core/onset.ts'
import { say } from '../core/phrases.ts'
import type { RunState, Step } from '../core/state.ts'
import { callSignFor } from '../talk/callSign.ts'
import { comeIn, voiced } from '../talk/radio.ts'
import { saidValues } from '../talk/said.ts'
import { exchangesOf, turnState } from '../talk/talk.ts'
import { chancesBetween } from './chances.ts'
import type { Break, Chance, PartnerState, ResumedAt } from './model.ts'
import { hasPartner, isWithoutCue, openBreak, partnerOf, withPartnerState } from './partner.ts'

/** What was planned holds for this step: items that it goes by are gone by before it, a station's slip is in its script. */
export function withPlan(state: RunState): RunState {
  const { planned } = partnerOf(state)
  if (!planned) return state
  const { kind, items = [], about, figure, seed } = planned
  if (kind === 'skipped' || kind === 'completeEarly')
    return withPartnerState(state, { goneBy: [...partnerOf(state).goneBy, ...items] })
  if (kind !== 'readBack' || !state.script || figure === undefined || seed === undefined) return state
  return { ...state, script: { ...state.script, slip: { kind: 'saysAnother', turn: about, figure, seed } } }
}

/** `before` without what was planned for this step, so that a chance is told by what really came of it. */
export function withPartner(pack: Pack, before: RunState, { state, effects }: Step, event: RunEvent): Step {
  // What counts as done was not said by anybody.
  if (!hasPartner(state) || event.type === 'begunAt') return { state, effects }
  if (event.type === 'faultPlanned') {
    const { ordered: _, ...rest } = partnerOf(state)
    return { state: { ...state, partner: { ...rest, planned: event.fault } }, effects }
  }
  if (event.type === 'breakPlanned') {
    const { item, by, cue } = event
    return { state: withPartnerState(state, { plannedBreak: { item, by, cue } }), effects }
  }
  const { planned, plannedBreak, ...known } = partnerOf(state)
  const { breaks, answered, ...others } = known
  // New figures: its answer was to others. Elsewhere it stands for nothing: only going on from it accepts it.
  const stands = event.type !== 'figuresRevised' && state.floor.at === 'item' && state.floor.item === answered
  const own: PartnerState = {
    ...others,
    ...(answered !== undefined && stands && { answered }),
    breaks: breaks.map((one) => (one.place === undefined ? resumedBy(state, one, event) : one)),
    chances: [...known.chances, ...chancesIn(pack, before, state, event, planned)],
  }
  const noted = noticedOtherwise({ ...state, partner: own }, event)
  const { floor } = state
  const isHere = plannedBreak && floor.at === 'item' && floor.item === plannedBreak.item && !state.question
  if (isHere) return breakIn(pack, noted, effects, { ...plannedBreak, t: event.t }, planned)
  // Without a cue nobody says what was open.
  const told = isWithoutCue(noted)
    ? effects.filter((one) => !(one.type === 'startTimer' && one.timer === 'prompt'))
    : effects
  return { state: noted, effects: told }
}

/**
 * Caught without a word of objection to Otherseat: the pilot put the station right, or went back to what was gone by.
 */
function noticedOtherwise(state: RunState, event: RunEvent): RunState {
  const { floor } = state
  const { chances, goneBy, calledComplete } = partnerOf(state)
  const at = floor.at === 'item' && goneBy.includes(floor.item) ? floor.item : undefined
  const isNoticed = ({ fault, objection }: Chance) =>
    fault !== undefined &&
    !objection &&
    ((at !== undefined && fault.items?.includes(at)) ||
      (fault.kind === 'readBack' && turnState(state, fault.about).slip === 'noticed'))
  if (!chances.some(isNoticed)) return state
  const text = 'evidence' in event ? (event.evidence?.text ?? '') : ''
  const come = chances.filter(isNoticed).flatMap(({ fault }) => fault?.items ?? [])
  return withPartnerState(state, {
    chances: chances.map((one) => (isNoticed(one) ? { ...one, objection: { t: event.t, text } } : one)),
    goneBy: goneBy.filter((id) => !come.includes(id)),
    calledComplete: floor.at === 'item' ? calledComplete.filter((id) => id !== floor.list) : calledComplete,
  })
}

function chancesIn(
  pack: Pack,
  before: RunState,
  after: RunState,
  event: RunEvent,
  planned: PartnerState['planned'],
): Chance[] {
  const { t, seq } = event
  const found = chancesBetween(pack, before, after, event)
  const isOf = ({ kind, about }: { readonly kind: Chance['kind']; readonly about: string }) => {
    if (planned?.kind === 'skipped') return kind === 'move'
    if (planned?.kind === 'completeEarly') return kind === 'completion' && about === planned.about
    return planned?.about === about && (kind === 'answer' || kind === 'station' || kind === 'colleague')
  }
  const at = planned ? found.findIndex(isOf) : -1
  return found.map((one, index) => ({ t, seq, ...one, ...(planned && index === at && { fault: planned }) }))
}

const ASKS: ReadonlySet<RunCommand> = new Set(['sayAgain', 'whereAreWe', 'whatIsLeft', 'whatCanISay', 'continue'])

/** Where the pilot took the list up again, once that can be told; the ear's doing tells nothing. */
function resumedBy(state: RunState, one: Break, event: RunEvent): Break {
  const back = (place: ResumedAt): Break => ({ ...one, place, resumedAt: Math.max(0, onsetOf(state, event)) })
  switch (event.type) {
    case 'breakOver':
      return { ...one, overAt: event.t }
    case 'answered':
      return event.judgement.verdict === 'sayAgain' ? one : back(event.item === one.item ? 'right' : 'wrong')
    case 'confirmedByKey':
    case 'accepted':
    case 'challenged':
      return back(event.item === one.item ? 'right' : 'wrong')
    case 'commanded':
      if (ASKS.has(event.command)) return back('asked')
      if (event.command === 'goBack') return back('before')
      return ['recheck', 'correction', 'fromTop'].includes(event.command) ? back('wrong') : one
    case 'listCalled':
      return back('wrong')
    default:
      return one
  }
}

/** It comes behind the challenge, or behind Otherseat's answer to one, and before the pilot can say anything. */
function breakIn(
  pack: Pack,
  before: RunState,
  effects: readonly Effect[],
  one: Break,
  planned: PartnerState['planned'],
): Step {
  const isRadio = one.by === 'radio'
  const { breaks, chances } = partnerOf(before)
  const fault = planned?.kind === 'otherCallSign' ? planned : undefined
  const call: Chance = { t: before.t, seq: before.seq, kind: 'call', about: one.item, ...(fault && { fault }) }
  const state = withPartnerState(before, {
    // What Otherseat answers itself the pilot need not.
    breaks: [...breaks, isRadio ? { ...one, overAt: one.t } : one],
    chances: isRadio ? [...chances, call] : chances,
  })
  const hold = one.cue ? say.holdingAt(findItem(pack, one.item).item.challenge) : ''
  const own = [isRadio ? say.standingBy() : '', hold].filter((text) => text).join(' ')
  const speech: Effect[] = [
    ...comeIn(one.by, isRadio ? calledSign(pack, state, fault?.said) : '').map(voiced),
    ...(own === '' ? [] : [{ type: 'speak', text: own, role: 'otherseat' } as const]),
  ]
  const at = effects.findIndex(({ type }) => type === 'listen')
  const rest = effects.slice(at).filter((effect) => effect.type !== 'startTimer')
  const later = timers(state).filter(
    (effect) => one.cue || !(effect.type === 'startTimer' && effect.timer === 'prompt'),
  )
  return { state, effects: at < 0 ? effects : [...effects.slice(0, at), ...speech, ...rest, ...later] }
}

function calledSign(pack: Pack, state: RunState, other: NonNullable<PartnerState['planned']>['said']): string {
  const name = exchangesOf(pack).flatMap((one) => callSignFor(pack, one) ?? [])[0]
  if (name === undefined) return ''
  const values = saidValues(state)
  const figure = figuresFor(pack, other === undefined ? values : { ...values, [name]: other }, [name])[name]
  return figure ? sayOnRadio(figure, state.settings.radio ?? 'icao') : ''
}

/** The pilot has dealt with what came in; where the list was is the pilot's to know. */
export function breakOver(state: RunState): Step {
  return { state, effects: openBreak(state) ? timers(state) : [] }
}
