/** The shape of an exchange and of a briefing in procedures.yaml. */

import { z } from 'zod'
import { ROLES } from '../kernel/pack/roles.ts'
import { id, interlocks, text, texts, when } from './schemaTerms.ts'

/** One text for both phraseologies, or one for each. */
const byRadio = (one: typeof text) => z.union([one, z.strictObject({ icao: one, faa: one })])
const wording = byRadio(text).describe('Words with <figure> in them; where the two phraseologies differ, both')
const notation = text.describe('In the response notation')

const element = z.strictObject({
  element: id,
  label: text.describe('As named aloud: "squawk" in "say again squawk"'),
  alsoCalled: texts.default([]),
  says: wording,
  readBack: byRadio(notation)
    .optional()
    .describe('In the response notation; left out where it need not be read back, all in brackets where it may be'),
  when: when.optional(),
})

const turn = z.strictObject({
  turn: id,
  label: text,
  calls: notation.optional().describe('What the pilot says first; left out where the station begins'),
  states: z.array(texts.min(1)).min(2).optional(),
  opens: wording.optional().describe('What the station says before the elements'),
  elements: z.array(element).default([]),
  faaOrder: z.array(id).optional().describe('All elements in the order of FAA phraseology, where it is another one'),
  closes: wording.optional().describe('What the station says when all is right'),
  sets: z.array(id).default([]).describe('Figures that hold from now on as they were said'),
  moves: z
    .enum(['begins', 'ends'])
    .optional()
    .describe('The aircraft moves from here, or has come to rest: after a stop in between it is said again'),
  clears: id.optional().describe('The clearance that it gives'),
  when: when.optional(),
  interlocks,
  caution: text.optional(),
})

export const exchange = z
  .strictObject({
    exchange: id,
    name: text,
    with: z.strictObject({ role: z.enum(ROLES), name: text }),
    order: z.enum(['fixed', 'free']).default('fixed'),
    turns: z.array(turn).min(1),
    when: when.optional(),
    caution: text.optional(),
  })
  .describe('What is said with a voice outside the crew, or an order between the seats (role otherseat)')

const never = z
  .strictObject({ when: texts.min(1), do: texts.min(1), instead: texts.min(1) })
  .describe(
    'What a briefing must never say: under one of these conditions one of these actions, where another is right',
  )

const topic = z.strictObject({
  topic: id,
  label: text,
  say: z.array(notation).min(1),
  never: z.array(never).min(1).optional(),
  when: when.optional(),
})

export const briefing = z
  .strictObject({
    briefing: id,
    name: text,
    ends: texts.min(1),
    topics: z.array(topic).min(1),
    when: when.optional(),
    caution: text.optional(),
  })
  .describe('Topics ticked as they are named, in any order; figures in them are compared')

export type WordingText = z.infer<typeof wording>
export type ElementText = z.infer<typeof element>
export type TurnText = z.infer<typeof turn>
export type ExchangeText = z.infer<typeof exchange>
export type BriefingText = z.infer<typeof briefing>
