/** The shape of one line of `judge`'s input. Its figures have the fields that their kinds declare. */

import { z } from 'zod'
import { type Figure, KIND_NAMES, type KindName, type KindSpec, kindOf, PHRASEOLOGIES } from '../kernel/kinds/kind.ts'
import { isNumeric } from '../kernel/kinds/table.ts'
import { shouldBe, tidied } from '../kernel/kinds/written.ts'
import { specShape } from './kindSchema.ts'
import { present } from './present.ts'
import { number } from './schemaTerms.ts'

/** A field that is null was not given. */
function withoutNulls(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  const entries = Object.entries(value)
  return entries.some(([, each]) => each === null)
    ? Object.fromEntries(entries.filter(([, each]) => each !== null))
    : value
}
const given = <T extends z.ZodType>(schema: T) => z.preprocess(withoutNulls, schema)

const texts = z.array(z.string())
const accept = given(z.object({ min: number.optional(), max: number.optional(), tolerance: number.optional() }))

function figureShape(kind: KindName) {
  return z.object({ ...specShape(kind), value: z.unknown(), accept: accept.optional() }).transform(figureOf)
}
type FigureShape = ReturnType<typeof figureShape>

/** A figure whose fields are right one by one, with its value as it is written. */
function figureOf(fields: Readonly<Record<string, unknown>>, context: z.RefinementCtx): Figure {
  const spec = fields as unknown as KindSpec
  const { value } = fields
  const fault = kindOf(spec).specFault?.(spec)
  const report = (field: string, message: string) => context.addIssue({ code: 'custom', path: [field], message })
  if (fault) report(fault.field, `should have ${fault.should}`)
  else if (typeof value === 'string' && !isNumeric(spec)) {
    const text = tidied(spec, value)
    const should = shouldBe(spec, text)
    if (should !== undefined) report('value', `should be ${should}`)
    return { ...fields, value: text } as Figure
  } else {
    const should = isNumeric(spec) ? shouldBe(spec, value as number) : 'text'
    if (should !== undefined) report('value', `should be ${should}`)
  }
  return fields as unknown as Figure
}

const figure = given(z.discriminatedUnion('kind', KIND_NAMES.map(figureShape) as [FigureShape, ...FigureShape[]]))

const alternative = z.union(
  [
    z.string().transform((text) => ({ text })),
    given(z.object({ text: z.string(), score: number.optional() })).transform((each) => present(each)),
  ],
  { error: 'should be {"text": ..., "score": ...}' },
)

export const judgeLine = given(
  z.object({
    response: z.string(),
    heard: z.string(),
    figures: z.record(z.string(), figure).default({}),
    challenge: z.string().optional(),
    phraseology: z.enum(PHRASEOLOGIES).optional(),
    score: number.optional(),
    states: z.array(texts).optional(),
    alternatives: z.array(alternative).optional(),
    held: texts.optional(),
    begun: z.record(z.string(), z.string()).optional(),
    yesNo: z.boolean().optional(),
    lists: z.record(z.string(), texts).optional(),
    confirmable: z.record(z.string(), texts).optional(),
    implausibleBefore: z.record(z.string(), z.union([number, z.string()])).optional(),
  }),
)
