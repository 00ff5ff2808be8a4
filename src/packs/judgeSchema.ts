/** The shape of one line of `judge`'s input. Its figures have the fields that their kinds declare. */

import { z } from 'zod'
import {
  type Figure,
  type Gauge,
  KIND_NAMES,
  type KindName,
  type KindSpec,
  kindOf,
  PHRASEOLOGIES,
} from '../kernel/kinds/kind.ts'
import { isNumeric } from '../kernel/kinds/table.ts'
import { shouldBe, tidied } from '../kernel/kinds/written.ts'
import { specShape } from './kindSchema.ts'
import { number } from './schemaTerms.ts'

/** A field that is null was not given. */
function withoutNulls(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  const fields = Object.entries(value)
  return fields.some(isNull) ? Object.fromEntries(fields.filter((field) => !isNull(field))) : value
}
const isNull = ([, value]: readonly [string, unknown]) => value === null

const given = <T extends z.ZodType>(schema: T) => z.preprocess(withoutNulls, schema)

const texts = z.array(z.string())
const accept = given(z.object({ min: number.optional(), max: number.optional(), tolerance: number.optional() }))

/** Read off a gauge: in place of a value, where it must lie. */
const read = given(z.object({ min: number.optional(), max: number.optional() }))

function figureShape(kind: KindName) {
  return z
    .object({ ...specShape(kind), value: z.unknown(), accept: accept.optional(), read: read.optional() })
    .transform(figureOf)
}
type FigureShape = ReturnType<typeof figureShape>

/** A figure whose fields are right one by one, with its value as it is written. */
function figureOf(fields: Readonly<Record<string, unknown>>, context: z.RefinementCtx): Figure | Gauge {
  const spec = fields as unknown as KindSpec
  if (fields.read !== undefined && fields.value === undefined) return gaugeOf(fields, context)
  const isText = !isNumeric(spec) && typeof fields.value === 'string'
  const figure = { ...fields, ...(isText && { value: tidied(spec, fields.value as string) }) } as unknown as Figure
  const fault = kindOf(spec).specFault?.(spec)
  const should = isText || isNumeric(spec) ? shouldBe(spec, figure.value) : 'text'
  if (fault) context.addIssue({ code: 'custom', path: [fault.field], message: `should have ${fault.should}` })
  else if (should !== undefined) context.addIssue({ code: 'custom', path: ['value'], message: `should be ${should}` })
  return figure
}

function gaugeOf({ value: _, ...fields }: Readonly<Record<string, unknown>>, context: z.RefinementCtx): Gauge {
  const gauge = fields as unknown as Gauge
  const fault = kindOf(gauge).specFault?.(gauge)
  if (fault) context.addIssue({ code: 'custom', path: [fault.field], message: `should have ${fault.should}` })
  else if (kindOf(gauge).match) context.addIssue({ code: 'custom', path: ['read'], message: 'is not for this kind' })
  return gauge
}

const figure = given(z.discriminatedUnion('kind', KIND_NAMES.map(figureShape) as [FigureShape, ...FigureShape[]]))

/** A text by itself is an alternative without a score. */
const alternative = z.preprocess(
  (value) => (typeof value === 'string' ? { text: value } : withoutNulls(value)),
  z.object({ text: z.string(), score: z.exactOptional(number) }),
)

export const judgeLine = given(
  z.object({
    response: z.string(),
    heard: z.string(),
    figures: z.record(z.string(), figure).default({}),
    challenge: z.exactOptional(z.string()),
    phraseology: z.exactOptional(z.enum(PHRASEOLOGIES)),
    score: z.exactOptional(number),
    states: z.exactOptional(z.array(texts)),
    alternatives: z.exactOptional(z.array(alternative)),
    held: z.exactOptional(texts),
    begun: z.exactOptional(z.record(z.string(), z.string())),
    yesNo: z.exactOptional(z.boolean()),
    explain: z.exactOptional(z.boolean()),
    lists: z.exactOptional(z.record(z.string(), texts)),
    confirmable: z.exactOptional(z.record(z.string(), texts)),
    implausibleBefore: z.exactOptional(z.record(z.string(), z.union([number, z.string()]))),
  }),
)
