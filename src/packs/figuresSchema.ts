/** The shape of figures.yaml: stations, tanks, envelopes, figures with their origins, how a departure is dealt. */

import { z } from 'zod'
import { CALCULATORS } from '../kernel/figures/calculators.ts'
import { TRAP_KINDS } from '../kernel/figures/pack.ts'
import { KIND_NAMES, KINDS, type KindName, type SpecOf } from '../kernel/kinds/kind.ts'
import type { Unit } from '../kernel/units.ts'
import { specShape } from './kindSchema.ts'
import { type PackText, WEIGHT_UNITS } from './packSchema.ts'
import {
  band,
  id,
  number,
  operand,
  positive,
  range,
  step,
  text,
  texts,
  unit,
  value,
  type WhenText,
  when,
} from './schemaTerms.ts'

/** One way to derive a figure: the calculator's name, and what it takes. */
function calculatorShape(name: string, more: Record<string, z.ZodType> = {}) {
  const calculator = CALCULATORS[name]
  const shape: Record<string, z.ZodType> = { by: z.literal(name), ...more }
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
const derivation = (more: Record<string, z.ZodType> = {}) =>
  z.discriminatedUnion(
    'by',
    Object.keys(CALCULATORS).map((name) => calculatorShape(name, more)) as [CalculatorShape, ...CalculatorShape[]],
  )
type DerivedText = Readonly<Record<string, unknown>> & { readonly when?: WhenText }
const derived = z.union([
  derivation(),
  z.array(derivation({ when: when.optional() })).min(1),
]) as z.ZodType as z.ZodType<DerivedText | DerivedText[]>

const values = z.array(value).min(1)
const bound = z.union([operand, z.array(operand).min(1)])

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
        .strictObject({ most: positive, step, min: number.optional() })
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
  derived: derived
    .optional()
    .describe('Computed by a calculator; or cases with when, the first one that applies counts'),
  read: z
    .strictObject({ min: operand.optional(), max: operand.optional() })
    .optional()
    .describe('The pilot reads it off a gauge in the run: where it must lie; {} where it is only noted'),
  round: z
    .strictObject({
      step,
      direction: z.enum(['nearest', 'up', 'down']),
      carried: z.boolean().optional().describe('What rests on it uses the rounded value, as it is printed'),
    })
    .optional(),
  limits: z
    .strictObject({ min: bound.optional(), max: bound.optional() })
    .optional()
    .describe('Numbers, or figures that limit it: {max: [31640, performanceWeight]}'),
  gross: positive.optional(),
  ownFirst: z
    .literal(true)
    .optional()
    .describe('The pilot works it out, and is asked for it, before our own value counts'),
  stated: z
    .strictObject({ sources: z.array(id).min(1), tolerance: number.min(0).optional() })
    .optional()
    .describe('Sources that may state it beside our own value; for numbers, how far apart they may be'),
}
const commonShape = z.strictObject(common)

const weightUnit = z.enum(WEIGHT_UNITS)

/** Of each kind the fields of its spec; where the kind leaves the unit open, the pack names any. */
function figureShape(kind: KindName) {
  const definition = KINDS[kind]
  const isOfAnyUnit = definition.values === 'numbers' && typeof definition.measure === 'object'
  return z.strictObject({
    ...common,
    ...specShape(kind),
    ...(isOfAnyUnit && { unit: unit.default('none') }),
    ...(kind === 'weight' && { unit: weightUnit.optional().describe("The pack's own, if left out") }),
  })
}
type FigureShape = ReturnType<typeof figureShape>

/** What the schema below holds: it is made of tables, so its type is said here. */
export type FigureText = z.infer<typeof commonShape> &
  { [K in KindName]: Omit<SpecOf<K>, 'unit'> & { readonly unit?: Unit } }[KindName]

export const figure = z.discriminatedUnion(
  'kind',
  KIND_NAMES.map(figureShape) as [FigureShape, ...FigureShape[]],
) as z.ZodType as z.ZodType<FigureText>

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
        unit: unit.optional().describe("Of its limits; the pack's own unit of arms, if left out"),
        limits: z.array(z.strictObject({ weight: number, forward: number, aft: number })).min(2),
      }),
    )
    .default({}),
  weights: z
    .strictObject({
      empty: z
        .union([
          z.strictObject({ weight: positive, arm: number }),
          z.strictObject({ weight: positive, moment: number.describe('Weight times arm, in the units of the pack') }),
        ])
        .describe('Of the weighing report: {weight: 1520, arm: 82}, or the weight and its moment'),
      taxiFuel: positive.optional().describe('Burned before takeoff'),
      landing: z.literal(true).optional().describe('The landing too, from the trip fuel that is entered'),
      max: z
        .strictObject({
          zeroFuel: positive.optional(),
          ramp: positive.optional(),
          takeoff: positive.optional(),
          landing: positive.optional(),
        })
        .default({}),
    })
    .optional()
    .describe('Makes the usual figures of weight and balance from stations, tanks and envelopes'),
  orders: z
    .array(z.array(id).min(2))
    .default([])
    .describe('Figures of which none may be above the next: [v1, vr, v2]; broken, it is a warning to acknowledge'),
  lastMinute: z.strictObject({ most: positive }).optional(),
  figures: z.record(id, figure),
  deal: z
    .strictObject({
      loads: z.record(id, range),
      values: z.record(id, z.union([range, z.array(value).min(1)])),
      situation: z.record(id, texts.min(1)).default({}),
      atLeast: z.record(id, number).default({}).describe('Figures that no draw may have below this: {headwind: 0}'),
      traps: z
        .array(
          z.strictObject({
            kind: z.enum(TRAP_KINDS),
            figure: id,
            also: z.array(id).default([]),
            source: id.optional(),
            least: positive.max(1).optional().describe('How far a wrong total is off at least, as a share of it: 0.01'),
          }),
        )
        .min(1),
    })
    .optional(),
})

export type WrittenFigures = z.infer<typeof figuresFile>
type Unitless = WrittenFigures['envelopes'][string]

/** As it was written, with the pack's own units where none was. */
export interface FiguresText extends Omit<WrittenFigures, 'envelopes' | 'weights'> {
  readonly envelopes: Readonly<Record<string, Omit<Unitless, 'unit'> & { readonly unit: string }>>
}

/** A weight without a unit is in the pack's, and so are the limits of an envelope; where pack.yaml cannot be read, in any. */
export function withUnits(figures: Omit<WrittenFigures, 'weights'>, pack: PackText | undefined): FiguresText {
  const { weight, arm } = pack?.units ?? { weight: 'kg', arm: 'm' }
  const mapped = <T, R>(entries: Readonly<Record<string, T>>, make: (entry: T) => R) =>
    Object.fromEntries(Object.entries(entries).map(([name, entry]) => [name, make(entry)]))
  return {
    ...figures,
    figures: mapped(figures.figures, (one) => (one.kind === 'weight' ? { ...one, unit: one.unit ?? weight } : one)),
    envelopes: mapped(figures.envelopes, (one) => ({ ...one, unit: one.unit ?? arm })),
  }
}
