/** The shape of tables.yaml. */

import { z } from 'zod'
import { NOT_GIVEN, READ_AT } from '../kernel/figures/pack.ts'
import { id, number, text, texts, unit } from './schemaTerms.ts'

const row = z.array(z.union([number, z.literal(NOT_GIVEN)]))
const axis = z.union([
  z.strictObject({
    name: id,
    label: text.optional(),
    unit,
    at: z.array(number).min(2),
    read: z.enum(READ_AT).optional(),
  }),
  z.strictObject({ name: id, label: text.optional(), choices: texts.min(1) }),
])

export const tablesFile = z.strictObject({
  tables: z.record(
    id,
    z.strictObject({
      label: text,
      unit,
      axes: z.array(axis).min(1).max(4),
      trend: z
        .record(id, z.enum(['rising', 'falling']))
        .optional()
        .describe('How cells change along an axis; one that does not is an error'),
      cells: z
        .union([row, z.array(row), z.array(z.array(row)), z.array(z.array(z.array(row)))])
        .describe(
          'One entry for each entry of the first axis; in it one for each of the next; "---" where nothing is given',
        ),
    }),
  ),
})

export type TablesText = z.infer<typeof tablesFile>
