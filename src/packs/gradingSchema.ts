/** The shape of grading.yaml: by what an instructor grades, where the author has a list of their own. */

import { z } from 'zod'
import { GRADES } from '../kernel/pack/grading.ts'
import { id, text, texts } from './schemaTerms.ts'

export const gradingFile = z.strictObject({
  source: text.describe('Where the list is from, as it stands beside it: an operator, a manual with its edition'),
  scale: texts
    .length(GRADES.length)
    .optional()
    .describe('What the grades 1 to 5 say, from 1 on; left out: as in the list of Otherseat'),
  competencies: z
    .record(
      id,
      z.strictObject({
        name: text.describe('As shown: Communication'),
        behaviours: texts.min(1).describe('What can be seen or heard of it, one sentence each'),
      }),
    )
    .describe('By their short names: COM'),
})

export type GradingText = z.infer<typeof gradingFile>
