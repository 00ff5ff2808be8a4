/** Values as people write and type them: whether one can be a value of its kind, and what would be right. */

import { type KindSpec, kindOf } from './kind.ts'
import type { Band, Value } from './value.ts'

export function isBeyond(value: number, { min = -Infinity, max = Infinity }: Band): boolean {
  return value < min || value > max
}

/** The ends that no value passes: the pack's, or the kind's; none for text. */
export function boundsOf(spec: KindSpec): Band {
  const kind = kindOf(spec)
  return kind.values === 'text' ? {} : { ...kind.bounds, ...ownEnds(spec) }
}

function ownEnds(spec: KindSpec): Band {
  return {
    ...('min' in spec && spec.min !== undefined && { min: spec.min }),
    ...('max' in spec && spec.max !== undefined && { max: spec.max }),
  }
}

/** What a value should be that is none of its kind: 'letters and digits: "A3"'; undefined where it is one. */
export function shouldBe(spec: KindSpec, value: Value): string | undefined {
  const kind = kindOf(spec)
  if (kind.values === 'text') return kind.isWritten(value, spec) ? undefined : kind.written(spec)
  if (typeof value !== 'number' || !Number.isFinite(value)) return 'a finite number'
  return kind.bounds && isBeyond(value, kind.bounds) ? shownBand(kind.bounds) : undefined
}

function shownBand({ min, max }: Band): string {
  if (min === undefined) return `at most ${max}`
  return max === undefined ? `at least ${min}` : `from ${min} to ${max}`
}

/** What was typed, as a value of a kind of text is written: capitals where it has them. */
export function tidied(spec: KindSpec, text: string): string {
  const kind = kindOf(spec)
  return kind.values === 'numbers' ? text.trim() : kind.tidied(text)
}
