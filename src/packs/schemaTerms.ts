/** What the schemas of a pack's files are made of: names, texts, numbers, units, conditions. */

import { z } from 'zod'
import { LARGEST_NUMBER, LONGEST_TEXT, LONGEST_VALUE, SMALLEST_POSITIVE } from '../kernel/bounds.ts'
import { UNIT_NAMES } from '../kernel/units.ts'
import { isUsable } from './yamlNodes.ts'

// Set before the first schema is made: the page's policy lets no text become program, and browsers report that it was tried.
z.config({ jitless: true })

/** How a name is explained. */
export const A_NAME = 'A name without spaces: takeoffTrim'

/** A name for something, of letters and digits; no name that every object of the language has. */
export const id = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9]*$/, 'should be a name of letters and digits without spaces: takeoffTrim')
  .max(LONGEST_VALUE)
  .refine(isUsable, 'cannot be a name here; choose another')
  .describe(A_NAME)
export const text = z.string().min(1).max(LONGEST_TEXT)
export const texts = z.array(text)
export const number = z.number().min(-LARGEST_NUMBER).max(LARGEST_NUMBER)
export const positive = z.number().min(SMALLEST_POSITIVE).max(LARGEST_NUMBER)
/** Of values: no instrument of the trade shows a finer one, and rounding needs its decimals. */
export const step = positive
export const unit = z.enum(UNIT_NAMES as [string, ...string[]])
export const value = z.union([z.string().max(LONGEST_VALUE), number])
/** Values of situations and figures, by their names; one or several. */
const size = z.strictObject({
  below: number.optional(),
  above: number.optional(),
  atLeast: number.optional(),
  atMost: number.optional(),
})
const demand = z.union([text, texts, size])
export type WhenText = { readonly [name: string]: z.infer<typeof demand> | WhenText | WhenText[] | undefined } & {
  readonly any?: WhenText[] | undefined
  readonly all?: WhenText[] | undefined
  readonly not?: WhenText | undefined
}
export const when: z.ZodType<WhenText> = z
  .object({
    get any() {
      return z.array(when).min(1).optional()
    },
    get all() {
      return z.array(when).min(1).optional()
    },
    get not() {
      return when.optional()
    },
  })
  .catchall(demand)
  .describe(
    'Applies only where every named situation or figure has one of these values, or is of this size: {icing: "yes", oat: {below: 5}}; any: [...], all: [...], not: {...} join conditions',
  ) as z.ZodType as z.ZodType<WhenText>
export const band = z.strictObject({ min: number.optional(), max: number.optional() })
export const operand = z.union([id, number])
export const range = z.strictObject({ min: number, max: number, step })
export const interlocks = z
  .array(z.strictObject({ after: text, seconds: positive.optional(), say: text, due: text.optional() }))
  .optional()
  .describe(
    'What must have happened first: an item (list.item), step (flow.step), turn (exchange.turn), list, watch, or cleared:NAME',
  )
