/** When something of a pack applies, in its own words: "Icing conditions: expected, outside air temperature below 5 °C". */

import { type Condition, isValues, type Size } from '../../kernel/figures/condition.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'

/** Empty where it always applies. */
export function conditionWords(pack: Pack, condition: Condition | undefined): string {
  if (!condition) return ''
  const { each = {}, any, all = [], not } = condition
  const inner = (one: Condition) => conditionWords(pack, one)
  return [
    ...Object.entries(each).map(([name, demand]) => demandWords(pack, name, demand)),
    ...all.map(inner),
    ...(any ? [any.map(inner).join(', or ')] : []),
    ...(not ? [`not (${inner(not)})`] : []),
  ].join(', ')
}

const SIZES: Readonly<Record<keyof Size, string>> = {
  below: 'below',
  above: 'above',
  atLeast: 'at least',
  atMost: 'at most',
}

function demandWords(pack: Pack, name: string, demand: readonly string[] | Size): string {
  const situation = pack.situations.find((one) => one.name === name)
  const figure = ownOf(pack.figures.declarations, name)
  const label = situation?.label ?? figure?.label ?? name
  if (isValues(demand)) {
    const shown = (value: string) => situation?.options.find((option) => option.value === value)?.label ?? value
    return `${label}: ${demand.map(shown).join(' or ')}`
  }
  const sizes = Object.entries(demand).map(
    ([size, end]) => `${SIZES[size as keyof Size]} ${formatMeasured(end, figure?.measure)}`,
  )
  return `${label} ${sizes.join(' and ')}`
}
