/** The partner of a run, for its debrief: every fault, what came of it, what was objected to without cause, and the interruptions. */

import { capital } from '../../capital.ts'
import type { Pack } from '../../pack/checklist.ts'
import { activityName, findItem } from '../../pack/place.ts'
import type { RunSettings } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import type { Break, Chance, Fault, FaultKind, Grade } from '../partner/model.ts'
import { ownChances, partnerOf } from '../partner/partner.ts'
import { valueSaid } from '../partner/seat.ts'
import { type Counts, type Sensitivity, sensitivityOf } from '../partner/sensitivity.ts'
import { findTurn } from '../talk/talk.ts'
import { seconds } from './debriefWatch.ts'

export interface DebriefFault {
  /** Ms from the start of the run. */
  readonly t: number
  readonly kind: FaultKind
  readonly grade: Grade
  /** In one sentence: what was said or left out, and what was right. */
  readonly told: string
  /** The item, list or turn, by its id and by its name. */
  readonly of: string
  readonly about: string
  /** A wrong value, or a critical item that was left out. */
  readonly grave: boolean
  readonly caught: boolean
  readonly caughtAt?: number
  /** The pilot's words. */
  readonly text?: string
}

export interface DebriefBreak extends Omit<Break, 'item'> {
  readonly challenge: string
  /** From when the pilot had dealt with it to the first word for the list. */
  readonly lagMs?: number
}

export interface DebriefPartner {
  readonly roles: NonNullable<RunSettings['roles']>
  /** Who read back to controllers, where that was not the pilot. */
  readonly readBacks?: NonNullable<RunSettings['readBacks']>
  /** Share of its chances in which it was to err; without it, it did not. */
  readonly rate?: number
  readonly faults: readonly DebriefFault[]
  /** Objections to what was right. */
  readonly falseObjections: readonly { readonly t: number; readonly text: string; readonly about: string }[]
  readonly counts: Counts
  readonly sensitivity: Sensitivity
  readonly breaks: readonly DebriefBreak[]
}

/**
 * Nothing of it before the run is over: it would tell what is still to be noticed. `since`: when a moment done again was
 * begun, ms from the start of the run; what came before counted in the other run.
 */
export function partnerIn(
  pack: Pack,
  state: RunState,
  { isOver, since }: { readonly isOver: boolean; readonly since: number },
): DebriefPartner | undefined {
  const { roles = 'pilotAnswers', readBacks = 'pilot', partner, breaks } = state.settings
  const isUsual = roles === 'pilotAnswers' && readBacks === 'pilot'
  const chances = ownChances(state)
  // An instructor may have had it err, or be interrupted.
  const hasErred = partnerOf(state).breaks.length > 0 || chances.some(({ fault }) => fault !== undefined)
  if (!isOver || (!partner && !breaks && isUsual && !hasErred)) return undefined
  const counts = countsOf(chances)
  return {
    roles,
    ...(readBacks !== 'pilot' && { readBacks }),
    ...(partner && { rate: partner.rate }),
    faults: chances.flatMap((one) => (one.fault ? [faultTold(pack, state, one, one.fault)] : [])),
    falseObjections: chances.flatMap(({ fault, objection, kind, about }) =>
      objection && !fault ? [{ ...objection, about: nameOf(pack, kind, about) }] : [],
    ),
    counts,
    sensitivity: sensitivityOf(counts),
    breaks: partnerOf(state)
      .breaks.filter(({ t }) => t >= since)
      .map((one) => breakTold(pack, one)),
  }
}

export function countsOf(chances: readonly Chance[]): Counts {
  const faults = chances.filter(({ fault }) => fault !== undefined)
  const sound = chances.filter(({ fault }) => fault === undefined)
  const objectedTo = (some: readonly Chance[]) => some.filter(({ objection }) => objection !== undefined).length
  return {
    faults: faults.length,
    caught: objectedTo(faults),
    sound: sound.length,
    falseObjections: objectedTo(sound),
  }
}

/** Another value than the right one was let go. */
const GRAVE: ReadonlySet<FaultKind> = new Set(['wrongValue', 'oldEdition', 'misread'])

function faultTold(pack: Pack, state: RunState, { t, kind: chance, objection }: Chance, fault: Fault): DebriefFault {
  const { kind, grade, about, items = [] } = fault
  return {
    ...{ of: about, about: nameOf(pack, chance, about) },
    grave: GRAVE.has(kind) || items.some((id) => findItem(pack, id).item.critical),
    ...{ t, kind, grade, told: `${capital(toldOf(pack, state, fault))}.`, caught: objection !== undefined },
    ...(objection && { caughtAt: objection.t, text: objection.text }),
  }
}

function toldOf(pack: Pack, state: RunState, { kind, about, figure, said, right, items = [], element }: Fault): string {
  const words = (value: typeof said) =>
    figure === undefined || value === undefined ? '' : valueSaid(pack, state, figure, value)
  const name = (id: string) => findItem(pack, id).item.challenge
  switch (kind) {
    case 'wrongValue':
      return `${name(about)}: Otherseat answered ${words(said)}, right was ${words(right)}`
    case 'oldEdition':
      return `${name(about)}: Otherseat answered ${words(said)}, of earlier figures; right was ${words(right)}`
    case 'valueless':
      return `${name(about)}: Otherseat answered "checked", without the value`
    case 'skipped':
      return `${name(about)}: Otherseat went by it`
    case 'completeEarly':
      return `${activityName(pack, about)} was called complete without ${items.map(name).join(', ')}`
    case 'readBack':
      return `${findTurn(pack, about).turn.label}: the controller came back with ${words(said)}, right was ${words(right)}`
    case 'misread':
    case 'leftOut': {
      const { turn } = findTurn(pack, about)
      const label = turn.elements.find(({ id }) => id === element)?.label ?? ''
      const what = kind === 'misread' ? `read back ${label} ${words(said)}, right was` : `did not read back ${label}`
      return `${turn.label}: your colleague ${what} ${words(right)}`.trim()
    }
    case 'otherCallSign':
      return `Otherseat answered a call for ${words(said)}`
  }
}

const nameOf = (pack: Pack, kind: Chance['kind'], about: string): string =>
  kind === 'station' || kind === 'colleague'
    ? findTurn(pack, about).turn.label
    : kind === 'completion'
      ? activityName(pack, about)
      : findItem(pack, about).item.challenge

function breakTold(pack: Pack, { item, ...one }: Break): DebriefBreak {
  const lagMs = one.resumedAt === undefined ? undefined : Math.max(0, one.resumedAt - (one.overAt ?? one.t))
  return { ...one, challenge: findItem(pack, item).item.challenge, ...(lagMs !== undefined && { lagMs }) }
}

/** How a break is told in words, after its time. */
export function breakWords({ by, challenge, cue, lagMs, place }: DebriefBreak): string {
  const who = { cabin: 'the cabin', radio: 'the radio', groundCrew: 'the ground crew', paper: 'a paper' }[by]
  const held = cue ? 'with a word to hold on to' : 'without one'
  const back = {
    right: 'taken up at the item',
    before: 'taken up one item before',
    asked: 'you asked where you were',
    wrong: 'taken up elsewhere',
  }
  const after = lagMs === undefined ? '' : `, ${seconds(lagMs)} after`
  return `${who} at ${challenge}, ${held}: ${place === undefined ? 'not taken up again' : back[place]}${after}`
}

/** Who challenged, who answered, and who read back. */
export function rolesWords({ roles, readBacks }: DebriefPartner, pilot: 'You' | 'The pilot'): string {
  const who = roles === 'pilotChallenges' ? `${pilot} challenged, Otherseat answered.` : `${pilot} answered.`
  return readBacks === 'colleague' ? `${who} The colleague read back to controllers.` : who
}

/** Rates and sensitivity in one sentence. */
export function sensitivityWords({ counts, sensitivity }: DebriefPartner): string {
  const { faults, caught, sound, falseObjections } = counts
  const { dPrime, bias, within } = sensitivity
  const head = `${caught} of ${faults} faults caught; ${falseObjections} of ${sound} right things objected to`
  if (dPrime === undefined || bias === undefined || within === undefined) return `${head}.`
  const sure = `${dPrime.toFixed(1)} give or take ${within.toFixed(1)}`
  return `${head}; sensitivity d' ${sure}, bias c ${bias.toFixed(1)}.`
}
