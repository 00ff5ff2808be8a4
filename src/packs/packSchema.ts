/** The shape of pack.yaml. */

import { z } from 'zod'
import { id, text, texts } from './schemaTerms.ts'

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
  quirks: z
    .array(z.strictObject({ named: texts.min(1), say: text }))
    .default([])
    .describe('What this simulator is known to show wrongly: said when a remark names it'),
})

export type PackText = z.infer<typeof packFile>
