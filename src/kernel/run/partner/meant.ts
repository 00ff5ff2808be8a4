/** What of all that the partner has said an objection is about. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, saidFigures } from '../../pack/place.ts'
import type { RunState } from '../core/state.ts'
import { findTurn } from '../talk/talk.ts'
import { radioBreath } from './breath.ts'
import type { Chance, ObjectionTo } from './model.ts'
import { answeredLast, partnerOf } from './partner.ts'

/** What was said longer ago than so many chances is not meant by "check that". */
const RECENT = 4

/** The chance that an objection means; undefined where nothing was said that it could be about. */
export function meantBy(pack: Pack, state: RunState, to: ObjectionTo, item?: string): number | undefined {
  const { chances } = partnerOf(state)
  const last = (is: (chance: Chance) => boolean, most = chances.length) => {
    const at = chances.findLastIndex(is)
    return at >= 0 && at >= chances.length - most ? at : undefined
  }
  const goneBy = (one: Chance) =>
    one.fault?.items !== undefined && !one.objection && (item === undefined || one.fault.items.includes(item))
  switch (to) {
    case 'skipped':
      return (
        last(goneBy) ??
        radioBreath(pack, state).find((at) => chances[at]?.fault?.kind === 'leftOut' && !chances[at]?.objection) ??
        last(({ kind }) => kind === 'move')
      )
    case 'notComplete': {
      const list = chances.findLast(({ kind }) => kind === 'completion')?.about
      const isIn = (one: Chance) => goneBy(one) && one.fault?.items?.some((id) => findItem(pack, id).list.id === list)
      const { floor } = state
      const isOther = 'list' in floor && floor.list !== list && chances.at(-1)?.about !== list
      // Of another list than the open one it was said too long ago.
      return last((one) => isIn(one) ?? false) ?? (isOther ? undefined : last(({ kind }) => kind === 'completion'))
    }
    case 'notForUs':
      return last(({ kind }) => kind === 'call')
    case 'value':
      return last(({ kind, about }) => isOfValues(kind) && (item === undefined || about === item), RECENT)
    case 'any': {
      const onRadio = radioBreath(pack, state)
      if (onRadio.length > 0) {
        const isOpen = (at: number) => chances[at]?.fault !== undefined && !chances[at]?.objection
        return onRadio.find(isOpen) ?? onRadio.find((at) => chances[at]?.kind === 'colleague')
      }
      const answered = answeredLast(pack, state)
      const isOfIt = ({ kind, about }: Chance) => about === answered && (kind === 'answer' || kind === 'call')
      if (answered !== undefined)
        return last((one) => isOfIt(one) && one.fault !== undefined && !one.objection) ?? last(isOfIt)
      const newest = chances.at(-1)
      return (
        last(({ seq, fault, objection }) => seq === newest?.seq && fault !== undefined && !objection) ??
        last(() => true)
      )
    }
  }
}

const isOfValues = (kind: Chance['kind']) => kind === 'answer' || kind === 'station' || kind === 'colleague'

/** Read-backs of the colleague's that a value may be about: those of the last breath, and those of a short while ago. */
export function readBacksMeant(pack: Pack, state: RunState): readonly number[] {
  const { chances } = partnerOf(state)
  const breath = radioBreath(pack, state)
  return [...chances.keys()]
    .toReversed()
    .filter((at) => chances[at]?.kind === 'colleague' && (breath.includes(at) || at >= chances.length - RECENT))
}

/** The figures that were said in it, and could have been wrong. */
export function figuresMeant(pack: Pack, state: RunState, { kind, about }: Chance): readonly string[] {
  if (kind === 'answer') return saidFigures(findItem(pack, about).item, state)
  if (kind !== 'station' && kind !== 'colleague') return []
  return findTurn(pack, about).turn.elements.flatMap(({ says }) => says[state.settings.radio ?? 'icao'].figures)
}
