/** What the schemas of a pack's files are made of: names, texts, numbers, units, conditions. */

import { z } from 'zod'
import { UNIT_NAMES } from '../kernel/units.ts'

// Set before the first schema is made: the page's policy lets no text become program, and browsers report that it was tried.
z.config({ jitless: true })

export const id = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9]*$/)
  .describe('A name without spaces: takeoffTrim')
export const text = z.string().min(1)
export const texts = z.array(text)
export const number = z.number()
export const positive = z.number().positive()
/** Of values: no instrument of the trade shows a finer one, and rounding needs its decimals. */
export const step = z.number().min(1e-6)
export const unit = z.enum(UNIT_NAMES as [string, ...string[]])
export const value = z.union([z.string(), z.number()])
/** Values of a situation, by its name; one or several. */
export const when = z
  .record(id, z.union([text, texts]))
  .describe('Applies only where every named situation has one of these values')
export const band = z.strictObject({ min: number.optional(), max: number.optional() })
export const operand = z.union([id, number])
export const range = z.strictObject({ min: number, max: number, step })
export const interlocks = z
  .array(z.strictObject({ after: text, seconds: positive.optional(), say: text, due: text.optional() }))
  .optional()
  .describe(
    'What must have happened first: an item (list.item), step (flow.step), turn (exchange.turn), list, watch, or cleared:NAME',
  )
