/** The shape of figures.yaml: stations, tanks, envelopes, figures with their origins, how a departure is dealt. */

import { z } from 'zod'
import { CALCULATORS } from '../kernel/figures/calculators.ts'
import { TRAP_KINDS } from '../kernel/figures/pack.ts'
import { band, id, number, operand, positive, range, text, texts, unit, value } from './schemaTerms.ts'

/** One way to derive a figure: the calculator's name, and what it takes. */
function calculatorShape(name: string) {
  const calculator = CALCULATORS[name]
  const shape: Record<string, z.ZodType> = { by: z.literal(name) }
  for (const [parameter, { many, optional }] of Object.entries(calculator?.takes ?? {})) {
    const one = many ? z.array(operand).min(1) : operand
    shape[parameter] = optional ? one.optional() : one
  }
  for (const need of calculator?.needs ?? []) {
    if (need === 'table') Object.assign(shape, { table: id, at: z.record(id, operand) })
    if (need === 'envelope') shape.envelope = id
    if (need === 'tank') shape.tank = id
    if (need === 'loads') shape.stations = z.array(id).min(1).optional()
  }
  return z.strictObject(shape).describe(calculator?.about ?? '')
}
type CalculatorShape = ReturnType<typeof calculatorShape>
const derived = z.discriminatedUnion(
  'by',
  Object.keys(CALCULATORS).map(calculatorShape) as [CalculatorShape, ...CalculatorShape[]],
)

const values = z.array(value).min(1)

const common = {
  label: text.describe('As spoken and shown'),
  alsoCalled: texts.default([]),
  accept: z.strictObject({ min: number.optional(), max: number.optional(), tolerance: number.optional() }).optional(),
  entered: z
    .strictObject({
      group: text.optional(),
      required: z.boolean().default(true),
      plausible: band.optional(),
      later: z
        .strictObject({ most: positive, step: positive, min: number.optional() })
        .optional()
        .describe('A station that says it has a later value than the papers, at most so far away'),
    })
    .optional()
    .describe('A person enters it with each revision'),
  given: z
    .strictObject({
      group: text.optional(),
      from: z.union([range, values, z.strictObject({ by: id, of: z.record(text, values) })]),
    })
    .optional()
    .describe(
      'A station gives it in an exchange: one of these by chance where nothing says which, or one of those that fit another figure',
    ),
  constant: value.optional().describe('The same in every departure'),
  derived: derived.optional().describe('Computed by a calculator'),
  round: z.strictObject({ step: positive, direction: z.enum(['nearest', 'up', 'down']) }).optional(),
  limits: band.optional(),
  gross: positive.optional(),
  stated: z
    .strictObject({ sources: z.array(id).min(1), tolerance: number.min(0).optional() })
    .optional()
    .describe('Sources that may state it beside our own value; for numbers, how far apart they may be'),
}
const scale = { min: number.optional(), max: number.optional(), step: positive.optional() }
const decimals = z.int().min(0).max(4)

const figure = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, ...scale, kind: z.literal('decimal'), decimals, unit: unit.default('none') }),
  z.strictObject({
    ...common,
    ...scale,
    kind: z.literal('trim'),
    decimals,
    axis: z.enum(['pitch', 'roll', 'yaw']).optional(),
  }),
  z.strictObject({ ...common, ...scale, kind: z.literal('integer'), unit: unit.default('none') }),
  z.strictObject({ ...common, ...scale, kind: z.literal('speed') }),
  z.strictObject({
    ...common,
    ...scale,
    kind: z.literal('weight'),
    unit: z.enum(['kg', 'lb']),
    say: z.literal('thousands').optional(),
  }),
  z.strictObject({ ...common, ...scale, kind: z.literal('temperature'), unit: z.enum(['C', 'F']) }),
  z.strictObject({ ...common, kind: z.literal('digits'), length: z.int().min(1).max(8) }),
  z.strictObject({ ...common, ...scale, kind: z.literal('altimeter'), unit: z.enum(['hPa', 'inHg']) }),
  z.strictObject({ ...common, ...scale, kind: z.literal('heading') }),
  z.strictObject({ ...common, kind: z.literal('runway') }),
  z.strictObject({ ...common, ...scale, kind: z.literal('altitude') }),
  z.strictObject({ ...common, ...scale, kind: z.literal('flightLevel') }),
  z.strictObject({ ...common, ...scale, kind: z.literal('frequency') }),
  z.strictObject({ ...common, kind: z.literal('time') }),
  z.strictObject({ ...common, kind: z.literal('identifier'), form: z.literal('letter').optional() }),
  z.strictObject({
    ...common,
    kind: z.literal('callsign'),
    telephony: texts
      .min(1)
      .optional()
      .describe('Every telephony designator that may be heard, of this flight and of others'),
  }),
  z.strictObject({ ...common, kind: z.literal('wind') }),
  z.strictObject({ ...common, kind: z.literal('route') }),
  z.strictObject({ ...common, kind: z.literal('choice'), options: z.record(text, texts.min(1)) }),
])

export const figuresFile = z.strictObject({
  stations: z
    .record(id, z.strictObject({ label: text, arm: number, max: positive.optional(), each: positive.optional() }))
    .default({}),
  mac: z.strictObject({ leadingEdge: number, length: positive }).optional(),
  index: z.strictObject({ reference: number, divisor: positive, constant: number }).optional(),
  tanks: z
    .array(
      z.record(
        id,
        z.strictObject({
          label: text,
          capacity: positive,
          arm: z.union([number, z.array(z.strictObject({ quantity: number.min(0), arm: number })).min(2)]),
        }),
      ),
    )
    .default([])
    .describe('Groups of tanks, filled in this order and burned in the reverse'),
  envelopes: z
    .record(
      id,
      z.strictObject({
        label: text,
        unit,
        limits: z.array(z.strictObject({ weight: number, forward: number, aft: number })).min(2),
      }),
    )
    .default({}),
  lastMinute: z.strictObject({ most: positive }).optional(),
  figures: z.record(id, figure),
  deal: z
    .strictObject({
      loads: z.record(id, range),
      values: z.record(id, z.union([range, z.array(value).min(1)])),
      situation: z.record(id, texts.min(1)).default({}),
      traps: z
        .array(
          z.strictObject({
            kind: z.enum(TRAP_KINDS),
            figure: id,
            also: z.array(id).default([]),
            source: id.optional(),
          }),
        )
        .min(1),
    })
    .optional(),
})

export type FiguresText = z.infer<typeof figuresFile>
export type FigureText = z.infer<typeof figure>
