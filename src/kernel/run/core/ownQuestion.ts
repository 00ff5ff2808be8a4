/** Which figures the pilot is to work out before Otherseat's own value counts, and where they are asked for. */

import type { Pack } from '../../pack/checklist.ts'
import type { EventFields } from './events.ts'
import type { Floor, Question, RunState } from './state.ts'

type Revised = EventFields['figuresRevised']

/** Figures that the pilot is to work out for this revision: those that are new in it, besides those still owed. */
export function ownToAsk(pack: Pack, before: RunState, { values, changes }: Revised): readonly string[] {
  if (!before.settings.ownValues) return []
  const isFirst = before.figureStatus === undefined
  const moved = changes.filter(({ spoken }) => spoken).map(({ figure }) => figure)
  return Object.values(pack.figures.declarations)
    .filter(({ name, ownFirst }) => ownFirst && values[name] !== undefined)
    .map(({ name }) => name)
    .filter((name) => isFirst || moved.includes(name) || before.ownToAsk.includes(name))
}

/** Asked where nothing is under way: in a flow, before a list, at an item. */
export function ownQuestion({ ownToAsk: [figure] }: RunState, { at }: Floor): Question | undefined {
  const isFree = at === 'flow' || at === 'call' || at === 'item'
  return isFree && figure !== undefined ? { about: 'ownValue', figure } : undefined
}

/** Answered with one value, whatever that is. */
export const isForValue = (question: Question): question is Extract<Question, { about: 'reading' | 'ownValue' }> =>
  question.about === 'reading' || question.about === 'ownValue'
