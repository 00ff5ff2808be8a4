/** The shape of a kind's spec, made from the table of its fields: the same for a pack's figures and for `judge`'s input. */

import { z } from 'zod'
import type { Field } from '../kernel/kinds/fields.ts'
import { KINDS, type KindName } from '../kernel/kinds/kind.ts'
import { number, positive, text, texts } from './schemaTerms.ts'

function typeOf(field: Field): z.ZodType {
  switch (field.type) {
    case 'oneOf':
      return field.values.length === 1 ? z.literal(field.values[0] ?? '') : z.enum(field.values)
    case 'wholeNumber':
      return z.int().min(field.min).max(field.max)
    case 'number':
      return field.positive ? positive : number
    case 'texts':
      return texts.min(1)
    case 'textsByName':
      return z.record(text, texts.min(1))
    default:
      return field satisfies never
  }
}

function schemaOf(field: Field): z.ZodType {
  const schema = field.optional ? typeOf(field).optional() : typeOf(field)
  return field.about === undefined ? schema : schema.describe(field.about)
}

/** Each field of the kind's spec with its schema, the kind's name among them. */
export function specShape(kind: KindName): Record<string, z.ZodType> {
  const fields: readonly (readonly [string, Field])[] = Object.entries(KINDS[kind].fields)
  return { ...Object.fromEntries(fields.map(([name, field]) => [name, schemaOf(field)])), kind: z.literal(kind) }
}
