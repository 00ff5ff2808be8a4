/** What Otherseat's own seat answers to an item: it is simulated, is said to be so, and sees nothing (law 8). */

import type { Value } from '../../kinds/kind.ts'
import { sayValue } from '../../kinds/table.ts'
import type { Item, Pack } from '../../pack/checklist.ts'
import { figuresFor, responseOf, saidFigures } from '../../pack/place.ts'
import { outlineOf, sayResponse } from '../../response/sentence.ts'
import { listed, say } from '../core/phrases.ts'
import { missingNames } from '../core/progress.ts'
import type { RunState } from '../core/state.ts'
import type { Fault } from './model.ts'
import { partnerOf, pilotChallenges } from './partner.ts'

/** `names`: of alternatives, such as a setting in hectopascals or in inches, the one that the pilot said. */
export function seatWords(
  pack: Pack,
  state: RunState,
  item: Item,
  names: readonly string[] = [],
  fault?: Fault,
): string {
  if (fault?.kind === 'valueless') return say.simulated('checked')
  const text = seatText(pack, state, item, names, fault)
  return text && say.simulated(text)
}

/** The same, not yet said to be simulated. */
export function seatText(
  pack: Pack,
  state: RunState,
  item: Item,
  names: readonly string[] = [],
  fault?: Fault,
): string {
  const { figure, said } = fault ?? {}
  const values = figure === undefined || said === undefined ? state.values : { ...state.values, [figure]: said }
  const figures = figuresFor(pack, values, names.length > 0 ? names : saidFigures(item, state))
  return sayResponse(responseOf(item, state), figures, state.settings.phraseology)
}

/** The fault that is planned for the answer to this item. */
export function plannedFor(state: RunState, item: string): Fault | undefined {
  const { planned } = partnerOf(state)
  return planned?.about === item ? planned : undefined
}

/** The figures that its answer says. */
export function figuresSaid(pack: Pack, state: RunState, item: Item, names: readonly string[] = []): string[] {
  const figures = figuresFor(pack, state.values, names.length > 0 ? names : saidFigures(item, state))
  const said: string[] = []
  outlineOf(responseOf(item, state), (name) => {
    const figure = figures[name]
    if (!figure) return ''
    said.push(name)
    return sayValue(figure, state.settings.phraseology)
  })
  return [...new Set(said)]
}

/** Figures of an answer as words: "five two up". */
export function valuesSaid(pack: Pack, { values, settings }: RunState, names: readonly string[]): string {
  return listed(Object.values(figuresFor(pack, values, names)).map((one) => sayValue(one, settings.phraseology)))
}

/** One value of a figure as words. */
export function valueSaid(pack: Pack, { settings }: RunState, name: string, value: Value): string {
  const figure = figuresFor(pack, { [name]: value }, [name])[name]
  return figure ? sayValue(figure, settings.phraseology) : String(value)
}

/** Its seat has no answer to what is read off a gauge, or has no figure yet: that is the pilot's. */
export function canAnswer(pack: Pack, state: RunState, item: Item): boolean {
  const isRead = saidFigures(item, state).some((name) => pack.figures.declarations[name]?.read)
  return !isRead && missingNames(pack, state, item).length === 0
}

/** Before the pilot has challenged it, nothing is an answer to an item that Otherseat answers. */
export const isUnchallenged = (pack: Pack, state: RunState, item: Item): boolean =>
  pilotChallenges(state) && partnerOf(state).answered !== item.id && canAnswer(pack, state, item)
