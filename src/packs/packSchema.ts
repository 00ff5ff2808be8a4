/** The shape of pack.yaml. */

import { z } from 'zod'
import { LONGEST_VALUE } from '../kernel/bounds.ts'
import { PHONES } from '../kernel/hearing/phones.ts'
import { id, text, texts } from './schemaTerms.ts'

/** What is said for one word. */
const MOST_SYNONYMS = 12
const wording = z
  .string()
  .regex(/^[a-z']+( [a-z']+){0,5}$/, 'should be one to six words in small letters, with single spaces')
  .max(LONGEST_VALUE)
export const WEIGHT_UNITS = ['kg', 'lb'] as const
export const ARM_UNITS = ['m', 'in'] as const

export const packFile = z.strictObject({
  id: z
    .string()
    .regex(/^[a-z][a-z0-9-]*$/, 'should be a name of small letters, digits and hyphens: marram')
    .max(LONGEST_VALUE),
  name: text,
  version: text,
  aircraft: text,
  operator: text,
  caution: text,
  units: z.strictObject({ weight: z.enum(WEIGHT_UNITS), arm: z.enum(ARM_UNITS) }),
  pronunciations: z
    .record(
      z.string().regex(/^[a-z']+$/, 'should be a word in small letters'),
      z.string().refine((sounds) => sounds.split(' ').every((sound) => PHONES.includes(sound)), {
        error: `should be sounds in ARPAbet without stress, with a space between: ${PHONES.join(' ')}`,
      }),
    )
    .default({})
    .describe('How names are pronounced that no dictionary has: tidewick: T AY D W IH K'),
  synonyms: z
    .record(wording, z.array(wording).min(1).max(MOST_SYNONYMS))
    .default({})
    .describe('What is said in place of a word on the cards, besides what the trade says: closed: [buttoned up]'),
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
