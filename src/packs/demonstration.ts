/** A demonstration that comes with a pack: a departure flown from lines, as `rehearse` flies it. */

import { z } from 'zod'
import { isError, type Problem } from '../kernel/problem.ts'
import { text } from './schemaTerms.ts'
import { shaped } from './shape.ts'
import { parseSource } from './source.ts'
import { told } from './telling.ts'

export const demonstrationFile = z.strictObject({
  title: text,
  inputs: text.describe('The sheet that it begins with, by its name in inputs/'),
  begin: text.optional().describe('The activity that it begins at; the first one where left out'),
  voices: z
    .int()
    .min(0)
    .optional()
    .describe('What stations say follows from this number; without it they are left out'),
  answers: z.string().max(20_000).describe('One thing that the pilot says a line; @stop and words where it is to stop'),
})

export type DemonstrationText = z.infer<typeof demonstrationFile>

export function readDemonstration(
  content: string,
  fileName: string,
): { readonly demonstration?: DemonstrationText; readonly problems: readonly Problem[] } {
  const { value, problems } = shaped(parseSource(fileName, content), demonstrationFile)
  const all = told([...problems])
  return all.some(isError) || !value ? { problems: all } : { demonstration: value, problems: all }
}
