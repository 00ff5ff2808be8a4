/** An answer or a read-back that was not right, in words: what was right by then, where a wrong value fits, what was left out. */

import { capital } from '../../capital.ts'
import { band } from '../../figures/entered.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import { listsOf } from '../../pack/place.ts'
import type { Part } from '../../response/model.ts'
import { exchangesOf } from '../talk/talk.ts'
import type { DebriefTry } from './debriefTry.ts'
import { rightValues } from './rightValues.ts'

/** Part by part, and where a wrong value fits; of a part without what was right, nothing. */
export function whyOf(pack: Pack, { judgement: { parts, because, causes = [] } }: DebriefTry): string {
  if (because === 'acknowledged') return 'A clearance is read back, not acknowledged.'
  if (because === 'valueless') return 'Said to be done, without the value.'
  const told = parts.flatMap((part) => rightOf(pack, part))
  const fits = causes.map(({ cause, detail }) =>
    cause === 'digitsSwapped' ? `two digits swapped: ${detail}` : `it looks like ${detail}`,
  )
  return `${capital([...told, ...fits].join('; ')) || 'It was not right'}.`
}

function rightOf(pack: Pack, { name, kind, state, expected, limits }: Part): string[] {
  const declared = kind === 'figure' ? ownOf(pack.figures.declarations, name) : undefined
  const label = declared?.label ?? name
  if (state === 'missing') return [`${label} was left out`]
  if (limits && declared) return [`${label}: ${band(limits, declared.measure)} is within limits`]
  if (state !== 'wrong' || expected === undefined) return []
  if (!declared) return [`“${expected}” was right`]
  const { spec, accept } = declared
  return [`${label}: ${rightValues(spec, expected, accept)} was right`]
}

/** Names of the missing parts, and what of them; never their values. `of`: the item or turn by its id. */
export function missingIn(pack: Pack, of: string, { judgement: { parts } }: DebriefTry): string[] {
  return parts
    .filter(({ state }) => state === 'missing')
    .map((part) => `${nameOf(pack, of, part)}${part.lacks === undefined ? '' : ` (${part.lacks})`}`)
}

function nameOf(pack: Pack, of: string, { name, kind }: Part): string {
  if (kind === 'figure') return ownOf(pack.figures.declarations, name)?.label ?? name
  const turn = exchangesOf(pack)
    .flatMap(({ turns }) => turns)
    .find(({ id }) => id === of)
  const element = turn?.elements.find(({ readBack }) =>
    Object.values(readBack ?? {}).some(({ paths }) => paths.flat().some((slot) => slot.name === name)),
  )
  if (element) return element.label
  const item = listsOf(pack)
    .flatMap(({ entries }) => entries)
    .find(({ id }) => id === of)
  // A part without a name of its own goes by its words, and they are the answer.
  const isNamed = item?.type === 'item' && item.responses.some(({ response }) => response.text.includes(`{${name}}`))
  return isNamed ? name : 'a state'
}
