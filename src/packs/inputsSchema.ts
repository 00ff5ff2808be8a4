/** The shape of a revision as it is handed in. */

import { z } from 'zod'
import { LONGEST_VALUE, MOST_ENTRIES } from '../kernel/bounds.ts'
import { number, text, value } from './schemaTerms.ts'

/** A load, weight or value: a number in the pack's unit, or with its unit: "5100 lb". */
const quantity = z.union([number, z.string().max(LONGEST_VALUE)])

export const inputsFile = z.strictObject({
  status: z.enum(['preliminary', 'final', 'amended']),
  label: text.optional(),
  values: z.record(z.string(), value).default({}),
  said: z.record(z.string(), value).optional().describe('What stations will say, where it is not what is entered'),
  loads: z.record(z.string(), quantity).default({}),
  situation: z.record(z.string(), z.string()).optional(),
  stated: z.record(z.string(), z.record(z.string(), value)).optional(),
  settled: z.record(z.string(), z.strictObject({ use: text, reason: text })).optional(),
  expect: z
    .record(z.string(), value)
    .optional()
    .describe('A worked example: what figures must come out as, rounded as they are spoken'),
  lastMinute: z
    .array(
      z.strictObject({
        station: z.string(),
        weight: quantity.optional(),
        count: z.int().min(-MOST_ENTRIES).max(MOST_ENTRIES).optional(),
      }),
    )
    .optional(),
})

export type InputsText = z.infer<typeof inputsFile>
