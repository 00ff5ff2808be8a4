/** An answer or a read-back that was not right, in words: what was right by then, where a wrong value fits, what was left out. */

import { capital } from '../../capital.ts'
import { band } from '../../figures/entered.ts'
import { unitAmong } from '../../kinds/unitWords.ts'
import { tokensOf } from '../../numbers/tokens.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { ExchangeTurn } from '../../pack/exchange.ts'
import { listsOf } from '../../pack/place.ts'
import { fillTemplate } from '../../pack/template.ts'
import type { Cause, Part } from '../../response/model.ts'
import { exchangesOf } from '../talk/talk.ts'
import type { DebriefTry } from './debriefTry.ts'
import { rightValues } from './rightValues.ts'

type Element = ExchangeTurn['elements'][number]

/** Part by part, and where a wrong value fits; of a part without what was right, nothing. `of`: the item or turn by its id. */
export function whyOf(pack: Pack, of: string, one: DebriefTry): string {
  const { parts, because, causes = [] } = one.judgement
  if (because === 'acknowledged') return 'A clearance is read back, not acknowledged.'
  if (because === 'valueless') return 'Said to be done, without the value.'
  const told = [
    ...parts.flatMap((part) => rightOf(pack, part, wholeOf(pack, of, one.judgement.parts, part))),
    ...parts.flatMap(({ state, heard }) => (because === 'unit' && state === 'wrong' ? unitWords(heard) : [])),
    ...missingIn(pack, of, one).map((name) => `${name} was left out`),
  ]
  const fits = causes.filter(({ cause }) => because !== 'unit' || cause !== 'otherUnit').map(causeWords)
  return `${capital([...told, ...fits].join('; ')) || 'It was not right'}.`
}

/** Where a wrong value may come from. */
export function causeWords({ cause, detail }: Cause): string {
  if (cause === 'digitsSwapped') return `two digits swapped: ${detail}`
  return cause === 'otherUnit' ? `it looks like the value in ${detail}` : `it looks like ${detail}`
}

function unitWords(heard = ''): string[] {
  const unit = unitAmong(tokensOf(heard).map(({ text }) => text))
  return unit ? [`it was said in ${unit}`] : []
}

/** "Hold short of runway 33": an element's words of which one part goes by a name of its own, with the values that were right. */
function wholeOf(pack: Pack, of: string, parts: readonly Part[], part: Part): string | undefined {
  const element = part.kind === 'word' && part.expected === part.name ? elementOf(pack, of, part) : undefined
  if (!element?.readBack?.icao.text.includes(`{${part.name}}`)) return undefined
  return fillTemplate(element.says.icao, (name) => {
    const declared = ownOf(pack.figures.declarations, name)
    const { expected, read } = parts.find((one) => one.name === name) ?? {}
    const value = expected ?? read
    return declared && value !== undefined ? rightValues(declared.spec, value, undefined) : (declared?.label ?? name)
  })
}

function rightOf(pack: Pack, { name, kind, state, expected, limits }: Part, whole = expected): string[] {
  const declared = kind === 'figure' ? ownOf(pack.figures.declarations, name) : undefined
  const label = declared?.label ?? name
  if (limits && declared) return [`${label}: ${band(limits, declared.measure)} is within limits`]
  if (state !== 'wrong' || expected === undefined) return []
  if (!declared) return [`“${whole}” was right`]
  const { spec, accept } = declared
  return [`${label}: ${rightValues(spec, expected, accept)} was right`]
}

/**
 * Names of what is missing, and what of it; never values. An element of which several parts are missing is named once. `of`:
 * the item or turn by its id.
 */
export function missingIn(pack: Pack, of: string, { judgement: { parts } }: DebriefTry): string[] {
  const missing = parts.filter(({ state }) => state === 'missing')
  const names = missing.map((part) => {
    const element = elementOf(pack, of, part)
    const isShared = missing.some((one) => one !== part && element && elementOf(pack, of, one) === element)
    const name = isShared && element ? element.label : nameOf(pack, of, part, element)
    return `${name}${part.lacks === undefined || isShared ? '' : ` (${part.lacks})`}`
  })
  return [...new Set(names)]
}

/** The element of a read-back that a part belongs to. */
function elementOf(pack: Pack, of: string, { name }: Part): Element | undefined {
  const turn = exchangesOf(pack)
    .flatMap(({ turns }) => turns)
    .find(({ id }) => id === of)
  return turn?.elements.find(({ readBack }) =>
    Object.values(readBack ?? {}).some(({ paths }) => paths.flat().some((slot) => slot.name === name)),
  )
}

function nameOf(pack: Pack, of: string, { name, kind }: Part, element: Element | undefined): string {
  if (kind === 'figure') return ownOf(pack.figures.declarations, name)?.label ?? name
  if (element) return element.label
  const item = listsOf(pack)
    .flatMap(({ entries }) => entries)
    .find(({ id }) => id === of)
  // A part without a name of its own goes by its words, and they are the answer.
  const isNamed = item?.type === 'item' && item.responses.some(({ response }) => response.text.includes(`{${name}}`))
  if (isNamed) return name
  return item ? 'a state' : 'part of the call'
}
