/** The shape of a pack's files, once: TypeScript types and JSON Schema both come from here. What names mean is checked in `check.ts`. */

import { z } from 'zod'
import { CALCULATORS } from '../kernel/figures/calculators.ts'
import { TRAP_KINDS } from '../kernel/figures/pack.ts'
import { UNIT_NAMES } from '../kernel/units.ts'

const id = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9]*$/)
  .describe('A name without spaces: takeoffTrim')
const text = z.string().min(1)
const texts = z.array(text)
const number = z.number()
const positive = z.number().positive()
const unit = z.enum(UNIT_NAMES as [string, ...string[]])
const value = z.union([z.string(), z.number()])
/** Values of a situation, by its name; one or several. */
const when = z
  .record(id, z.union([text, texts]))
  .describe('Applies only where every named situation has one of these values')

export const packFile = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  name: text,
  version: text,
  aircraft: text,
  operator: text,
  caution: text,
  units: z.strictObject({ weight: z.enum(['kg', 'lb']), arm: z.enum(['m', 'in']) }),
  situations: z
    .record(
      id,
      z.strictObject({
        label: text,
        initial: text,
        options: z.record(text, z.strictObject({ label: text, say: texts.min(1) })),
      }),
    )
    .default({}),
})

const band = z.strictObject({ min: number.optional(), max: number.optional() })
const operand = z.union([id, number])

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

const common = {
  label: text.describe('As spoken and shown'),
  alsoCalled: texts.default([]),
  accept: z.strictObject({ min: number.optional(), max: number.optional(), tolerance: number.optional() }).optional(),
  entered: z
    .strictObject({
      group: text.optional(),
      required: z.boolean().default(true),
      plausible: band.optional(),
    })
    .optional()
    .describe('A person enters it with each revision'),
  constant: value.optional().describe('The same in every departure'),
  derived: derived.optional().describe('Computed by a calculator'),
  round: z.strictObject({ step: positive, direction: z.enum(['nearest', 'up', 'down']) }).optional(),
  limits: band.optional(),
  gross: positive.optional(),
  stated: z.strictObject({ sources: z.array(id).min(1), tolerance: number.min(0) }).optional(),
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
  z.strictObject({ ...common, kind: z.literal('identifier') }),
  z.strictObject({ ...common, kind: z.literal('choice'), options: z.record(text, texts.min(1)) }),
])

const range = z.strictObject({ min: number, max: number, step: positive })

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

const row = z.array(number)
const axis = z.union([
  z.strictObject({ name: id, label: text.optional(), unit, at: z.array(number).min(2) }),
  z.strictObject({ name: id, label: text.optional(), choices: texts.min(1) }),
])

export const tablesFile = z.strictObject({
  tables: z.record(
    id,
    z.strictObject({
      label: text,
      unit,
      axes: z.array(axis).min(1).max(3),
      trend: z
        .record(id, z.enum(['rising', 'falling']))
        .optional()
        .describe('How cells change along an axis; one that does not is an error'),
      cells: z
        .union([row, z.array(row), z.array(z.array(row))])
        .describe('One entry for each entry of the first axis; in it one for each of the next'),
    }),
  ),
})

const step = z.strictObject({
  step: id,
  text,
  sets: z.array(id).default([]),
  when: when.optional(),
  caution: text.optional(),
})
const interlocks = z
  .array(z.strictObject({ after: text, seconds: positive.optional(), say: text }))
  .optional()
  .describe('What must have happened first: an item (list.item), step (flow.step), list, watch, or cleared:NAME')
const item = z.strictObject({
  item: id,
  challenge: text,
  response: z
    .union([text, z.array(z.strictObject({ when: when.optional(), say: text })).min(1)])
    .describe('In the response notation; or cases, the first one that applies counts'),
  states: z.array(texts.min(1)).min(2).optional(),
  answers: z.enum(['pilot', 'both']).default('pilot'),
  when: when.optional(),
  look: texts.default([]),
  restsOn: z.array(id).default([]),
  caution: text.optional(),
  interlocks,
  critical: z.boolean().default(false),
})
const line = z.strictObject({
  line: id,
  clearance: id.optional(),
  label: text,
  say: texts.min(1),
  when: when.optional(),
})
const flow = z.strictObject({
  flow: id,
  name: text,
  steps: z.array(step).min(1),
  when: when.optional(),
  caution: text.optional(),
})
const list = z.strictObject({
  list: id,
  name: text,
  alsoCalled: texts.default([]),
  needsFinal: z.boolean().default(false),
  when: when.optional(),
  caution: text.optional(),
  entries: z.array(z.union([item, line])).min(1),
})

const call = z.strictObject({ call: id, label: text, say: texts.min(1), within: positive.optional() })
const abnormal = z.strictObject({
  abnormal: id,
  label: text,
  say: texts.min(1),
  stopWords: text,
  actions: texts.default([]),
})
const watch = z
  .strictObject({
    watch: id,
    name: text,
    begins: texts.min(1),
    calls: z.array(call).min(1),
    abnormal: z.array(abnormal).default([]),
    stopWords: text,
    interlocks,
    when: when.optional(),
    caution: text.optional(),
  })
  .describe('A timed sequence that the crew calls out; limits in seconds from the call before')

export const proceduresFile = z.strictObject({
  phases: z
    .array(z.strictObject({ phase: id, name: text, activities: z.array(z.union([flow, list, watch])).min(1) }))
    .min(1),
})

/** A load, weight or value: a number in the pack's unit, or with its unit: "5100 lb". */
const quantity = z.union([z.number(), z.string()])

export const inputsFile = z.strictObject({
  status: z.enum(['preliminary', 'final', 'amended']),
  label: text.optional(),
  values: z.record(z.string(), value).default({}),
  loads: z.record(z.string(), quantity).default({}),
  situation: z.record(z.string(), z.string()).optional(),
  stated: z.record(z.string(), z.record(z.string(), value)).optional(),
  settled: z.record(z.string(), z.strictObject({ use: text, reason: text })).optional(),
  lastMinute: z
    .array(z.strictObject({ station: z.string(), weight: quantity.optional(), count: z.int().optional() }))
    .optional(),
})

export type PackText = z.infer<typeof packFile>
export type FiguresText = z.infer<typeof figuresFile>
export type FigureText = z.infer<typeof figure>
export type TablesText = z.infer<typeof tablesFile>
export type ProceduresText = z.infer<typeof proceduresFile>
export type InputsText = z.infer<typeof inputsFile>
export type ItemText = z.infer<typeof item>
export type LineText = z.infer<typeof line>
export type FlowText = z.infer<typeof flow>
export type ListText = z.infer<typeof list>
export type WatchText = z.infer<typeof watch>

export const SCHEMAS = {
  'pack.yaml': packFile,
  'figures.yaml': figuresFile,
  'tables.yaml': tablesFile,
  'procedures.yaml': proceduresFile,
  'inputs/*.yaml': inputsFile,
} as const

/** JSON Schema of every file of a pack, as a person may write them. */
export function jsonSchema(): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(SCHEMAS).map(([file, schema]) => [file, z.toJSONSchema(schema, { io: 'input', reused: 'ref' })]),
  )
}
