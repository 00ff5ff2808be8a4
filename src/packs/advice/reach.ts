/** What no situation ever reaches: conditions that exclude each other, cases behind one that covers all. */

import type { Problem } from '../../kernel/problem.ts'
import type { When } from '../conditions.ts'
import { entryName, type ItemText } from '../proceduresSchema.ts'
import { openSituation } from '../situations.ts'
import type { Path } from '../source.ts'
import { type Advise, activitiesOf, advising, type Written } from './written.ts'

interface Part {
  readonly name: string
  readonly when: When
  readonly path: Path
}

export function adviseReach(written: Written): Problem[] {
  const problems: Problem[] = []
  const advise = advising(written.procedures.source, problems)
  const named = { pack: written.pack.value, figures: written.figures.value.figures }
  const isReached = (...whens: When[]) => openSituation(named, whens, []) !== undefined
  for (const { value, path } of activitiesOf(written)) {
    for (const { name, when, path: at } of partsOf(value, path)) {
      if (when === undefined || isReached(value.when, when)) continue
      const message = `${name} is never reached: no situation has both this and the condition on what it stands in (${inWords(value.when)})`
      advise('unreached', [...at, 'when'], message)
    }
    if (!('list' in value)) continue
    for (const [index, entry] of value.entries.entries()) {
      if (!('item' in entry) || !isReached(value.when, entry.when)) continue
      adviseCases(written, entry, [value.when, entry.when], [...path, 'entries', index, 'response'], advise)
    }
  }
  return problems
}

function partsOf(value: ReturnType<typeof activitiesOf>[number]['value'], path: Path): Part[] {
  if ('list' in value) {
    return value.entries.map((entry, index) => ({
      name: entryName(entry),
      when: entry.when,
      path: [...path, 'entries', index],
    }))
  }
  if ('flow' in value) {
    return value.steps.map(({ step, when }, index) => ({ name: `step ${step}`, when, path: [...path, 'steps', index] }))
  }
  if ('briefing' in value) {
    return value.topics.map(({ topic, when }, index) => ({
      name: `topic ${topic}`,
      when,
      path: [...path, 'topics', index],
    }))
  }
  if (!('exchange' in value)) return []
  return value.turns.map(({ turn, when }, index) => ({ name: `turn ${turn}`, when, path: [...path, 'turns', index] }))
}

/** Of more cases than this it is not worked out which are left. */
const MOST_CASES = 20

function adviseCases(
  { pack, figures }: Written,
  { response, item }: ItemText,
  all: readonly When[],
  path: Path,
  advise: Advise,
): void {
  if (typeof response === 'string' || response.length > MOST_CASES) return
  for (const [index, { when }] of response.entries()) {
    const before = response.slice(0, index).map((one) => [one.when])
    if (openSituation({ pack: pack.value, figures: figures.value.figures }, [...all, when], before) !== undefined)
      continue
    const why =
      index === 0
        ? 'the item itself is left out then'
        : 'the first case that applies counts, and one before it always does'
    advise('unreached', [...path, index], `case ${index + 1} of item ${item} is never reached: ${why}`)
    return
  }
}

function inWords(when: When): string {
  return Object.entries(when ?? {})
    .map(([name, demand]) => `${name} ${wordsOf(demand)}`)
    .join(', ')
}

const wordsOf = (demand: unknown): string =>
  typeof demand === 'string' ? demand : Array.isArray(demand) ? demand.map(wordsOf).join(' or ') : sizeWords(demand)

const sizeWords = (size: unknown): string =>
  Object.entries(Object(size))
    .map(([end, number]) => `${end} ${wordsOf(number)}`)
    .join(' and ')
