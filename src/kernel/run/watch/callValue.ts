/** What is read out with a call, against the limits that the pack has for it. */

import type { KindSpec, Value } from '../../kinds/kind.ts'
import { sayValue } from '../../kinds/table.ts'
import type { CallValue, WatchCall } from '../../pack/checklist.ts'
import { say } from '../core/phrases.ts'

/** On which side of its limits a value lies; undefined between them. The limits themselves are still right. */
export function outsideOf({ min, max }: CallValue, value: Value): 'low' | 'high' | undefined {
  if (min !== undefined && Number(value) < min) return 'low'
  return max !== undefined && Number(value) > max ? 'high' : undefined
}

/** Of a value with one limit: so far on the right side of it that a digit was likelier misread or misheard. */
export function isImplausible({ min, max }: CallValue, value: Value): boolean {
  if (min !== undefined && max !== undefined) return false
  if (min !== undefined && min > 0) return Number(value) > min * FAR
  return max !== undefined && max > 0 && Number(value) < max / FAR
}
/** A digit more or less makes ten times as much, whatever the first one is, at least five. */
const FAR = 5

/** Whether it is what lies between the values of two earlier calls; of one that was not read out nobody knows. */
export function fits({ between }: CallValue, value: Value, values: Readonly<Record<string, Value>>): boolean {
  const [one, other] = between?.map((id) => values[id]) ?? []
  if (one === undefined || other === undefined) return true
  return Math.abs(Math.abs(Number(one) - Number(other)) - Number(value)) < 1e-6
}

/** The value as it was heard, in words. */
export const valueWords = ({ spec }: CallValue, value: Value): string =>
  sayValue({ ...(spec as KindSpec), value } as Parameters<typeof sayValue>[0], 'plain')

/** Asks for what is to be read out with a call. */
export const askFor = ({ label, value }: WatchCall): string =>
  value?.label === undefined ? say.readValue(label) : say.challenge(value.label)
