/** The names that a schema knows at a place, for "did you mean". */

import type { z } from 'zod'
import { ownOf } from '../kernel/own.ts'
import type { Path } from './source.ts'

export function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((here, segment) => {
    const isThere = typeof here === 'object' && here !== null && Object.hasOwn(here, segment)
    return isThere ? (here as Record<string | number, unknown>)[segment] : undefined
  }, value)
}

export function keysAt(schema: z.ZodType, value: unknown, path: Path): string[] {
  let candidates: z.core.$ZodType[] = [schema]
  for (const segment of path) {
    candidates = candidates.flatMap((one) => inside(one, segment)).flatMap(opened)
  }
  const here = valueAt(value, path) as Record<string, unknown> | undefined
  const shapes = candidates.flatMap(opened)
  const meant = shapes.filter((one) => isMeant(one, here))
  return [...new Set((meant.length > 0 ? meant : shapes).flatMap((one) => Object.keys(shapeOf(one))))]
}

/** The alternatives behind defaults, optionals and unions. */
function opened(schema: z.core.$ZodType): z.core.$ZodType[] {
  const def = schema._zod.def as { type: string; innerType?: z.core.$ZodType; options?: z.core.$ZodType[] }
  if (def.innerType) return opened(def.innerType)
  if (def.type === 'union') return (def.options ?? []).flatMap(opened)
  return [schema]
}

function inside(schema: z.core.$ZodType, segment: string | number): z.core.$ZodType[] {
  return opened(schema).flatMap((one) => {
    const def = one._zod.def as {
      shape?: Record<string, z.core.$ZodType>
      valueType?: z.core.$ZodType
      element?: z.core.$ZodType
      catchall?: z.core.$ZodType
    }
    const named = ownOf(def.shape, String(segment))
    const found = named ?? def.valueType ?? def.element ?? def.catchall
    return found ? [found] : []
  })
}

/** The first word of an entry says what it is. */
export const MARKS: readonly string[] = [
  'item',
  'line',
  'question',
  'note',
  'heading',
  'flow',
  'list',
  'watch',
  'exchange',
  'briefing',
]

function shapeOf(schema: z.core.$ZodType): Record<string, z.core.$ZodType> {
  return (schema._zod.def as { shape?: Record<string, z.core.$ZodType> }).shape ?? {}
}

/** Of a union by a word (kind, by), only the shape with the word that stands there; of one by marks, that with the mark. */
function isMeant(schema: z.core.$ZodType, here: Record<string, unknown> | undefined): boolean {
  const shape = shapeOf(schema)
  const fits = ['kind', 'by'].every((word) => {
    const values = ownOf(shape, word)?._zod.values
    return !values || values.has(here?.[word] as string)
  })
  const [mark, ...others] = MARKS.filter((word) => Object.hasOwn(shape, word))
  return fits && (mark === undefined || others.length > 0 || (here !== undefined && Object.hasOwn(here, mark)))
}
