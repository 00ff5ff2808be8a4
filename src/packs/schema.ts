/** Each file of a pack with its schema; TypeScript types and JSON Schema both come from these. What names mean is checked by the `check...` files. */

import { z } from 'zod'
import { figuresFile } from './figuresSchema.ts'
import { gradingFile } from './gradingSchema.ts'
import { inputsFile } from './inputsSchema.ts'
import { packFile } from './packSchema.ts'
import { papersFile } from './papersSchema.ts'
import { proceduresFile } from './proceduresSchema.ts'
import { tablesFile } from './tablesSchema.ts'

export const SCHEMAS = {
  'pack.yaml': packFile,
  'figures.yaml': figuresFile,
  'tables.yaml': tablesFile,
  'procedures.yaml': proceduresFile,
  'papers.yaml': papersFile,
  'grading.yaml': gradingFile,
  'inputs/*.yaml': inputsFile,
} as const

/** JSON Schema of every file of a pack, as a person may write them. */
export function jsonSchema(): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(SCHEMAS).map(([file, schema]) => [file, z.toJSONSchema(schema, { io: 'input', reused: 'ref' })]),
  )
}
