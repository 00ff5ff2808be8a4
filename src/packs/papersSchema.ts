/** The shape of papers.yaml: the operator's papers, as they lie on the table. */

import { z } from 'zod'
import { id, text, texts } from './schemaTerms.ts'

const label = text.optional()
const line = z
  .union([
    z.strictObject({ heading: text }),
    z.strictObject({ label: text, text }),
    z.strictObject({ figure: id, label, limits: z.boolean().optional() }),
    z.strictObject({ load: id, label }),
    z.strictObject({ situation: id, label }),
    z.strictObject({ status: text }),
    z.strictObject({ lastMinute: text }),
  ])
  .describe(
    'A heading; fixed text; a figure that the source states or a person enters, with its limits beside it if wanted; the load at a station; a situation; preliminary, final or amended; last-minute changes',
  )

export const papersFile = z.strictObject({
  papers: z.record(
    id,
    z.strictObject({
      title: text.describe('As shown and spoken: load sheet'),
      source: id.optional().describe('The source whose stated values it prints: loadSheet'),
      edition: id.optional().describe('The figure, entered, that numbers its editions'),
      issue: text.optional().describe('Of a card that does not change with the departure'),
      lines: z.array(line).default([]),
      tables: z.array(id).default([]).describe('Tables of the pack, printed whole'),
      lists: z
        .union([z.literal('all'), z.array(id)])
        .default([])
        .describe('Lists of the pack, printed without values'),
      notes: texts.default([]),
      signature: text.optional().describe('Who signs it'),
    }),
  ),
})

export type PapersText = z.infer<typeof papersFile>
