/** A revision in which nothing is entered begins no run; one that is partly filled does, and the figures say what is missing. */

import type { Problem } from '../problem.ts'
import type { Inputs } from './model.ts'
import type { FigureModel } from './pack.ts'

const MOST_NAMED = 4

/** Undefined where some value or load is entered, or the pack asks for none. */
export function nothingEntered(
  { declarations, stations }: FigureModel,
  { values, loads }: Pick<Inputs, 'values' | 'loads'>,
): Problem | undefined {
  if (Object.keys(values).length > 0 || Object.keys(loads).length > 0) return undefined
  const entered = Object.values(declarations).filter(({ input, given }) => input && given === undefined)
  const labels = [...entered, ...stations].map(({ label }) => label)
  if (labels.length === 0) return undefined
  const named = labels.slice(0, MOST_NAMED).join(', ')
  const more = labels.length > MOST_NAMED ? ` and ${labels.length - MOST_NAMED} more` : ''
  const message = `Nothing is entered yet. Missing: ${named}${more}. Type them in, or read a load sheet.`
  return { code: 'inputs.empty', message, severity: 'error' }
}
