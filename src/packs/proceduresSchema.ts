/** The shape of procedures.yaml: phases with their flows, lists, watches, exchanges and briefings. */

import { z } from 'zod'
import { SPOKEN_UNITS } from '../kernel/kinds/unitWords.ts'
import { briefing, exchange } from './exchangeSchema.ts'
import { id, interlocks, operand, positive, text, texts, when } from './schemaTerms.ts'

const step = z.strictObject({
  step: id,
  text,
  short: text.optional().describe('What it is called when it is to be done again: "trim"'),
  say: texts.default([]).describe('Ways to tick it by voice'),
  sets: z.array(id).default([]),
  when: when.optional(),
  caution: text.optional(),
  interlocks,
})
const wait = z
  .strictObject({
    seconds: positive,
    due: text.optional().describe('Said of its own accord when the time is up'),
  })
  .describe('Time that must pass first: since the entry before it, or since the list was called')
/** More of one item are a list of their own. */
const MOST_TIMES = 12
const item = z.strictObject({
  item: id,
  challenge: text,
  response: z
    .union([text, z.array(z.strictObject({ when: when.optional(), say: text })).min(1)])
    .describe('In the response notation; or cases, the first one that applies counts'),
  states: z
    .union([z.array(texts.min(1)).min(2), z.record(text, z.array(texts.min(1)).min(2))])
    .optional()
    .describe('What it can be in, each with its synonyms: [[closed, shut], [open]]; or by the tags of the parts'),
  answers: z.enum(['pilot', 'both']).default('pilot'),
  when: when.optional(),
  look: texts.default([]),
  restsOn: z.array(id).default([]),
  caution: text.optional(),
  interlocks,
  critical: z.boolean().default(false),
  memory: z
    .literal(true)
    .optional()
    .describe('Said from memory: the challenge is not spoken, nor shown before it was said'),
  optional: z.literal(true).optional().describe('"Not applicable" closes it, and is counted apart'),
  times: z
    .int()
    .min(2)
    .max(MOST_TIMES)
    .optional()
    .describe('Asked so often, with its number where * stands in the challenge, or behind it'),
  each: texts
    .min(2)
    .max(MOST_TIMES)
    .optional()
    .describe('Asked for each of these, named where * stands in the challenge, or before it: [left, right]'),
  wait: wait.optional(),
})
const question = z
  .strictObject({
    question: id,
    challenge: text,
    decides: id.describe('The situation that the answer sets; items behind it hang on that by when'),
    yes: text.optional().describe('The option of that situation that "yes" means'),
    no: text.optional().describe('The option that "no" means'),
    when: when.optional(),
    look: texts.default([]),
    caution: text.optional(),
    wait: wait.optional(),
  })
  .describe('Answered by how it is: what comes next follows from that')
const note = z
  .strictObject({ note: text, when: when.optional() })
  .describe('Shown in the list and printed on cards, never asked')
const heading = z.strictObject({ heading: text, when: when.optional() }).describe('Above the entries that follow it')
const line = z.strictObject({
  line: id,
  clearance: id.optional(),
  label: text,
  say: texts.min(1),
  when: when.optional(),
})
const flow = z.strictObject({
  flow: id,
  name: text,
  steps: z.array(step).min(1),
  silent: z.boolean().default(false).describe('Left to memory: never announced and not waited for'),
  when: when.optional(),
  caution: text.optional(),
})
const list = z.strictObject({
  list: id,
  name: text,
  alsoCalled: texts.default([]),
  needsFinal: z.boolean().default(false),
  anytime: z
    .literal(true)
    .optional()
    .describe('Never due: called by its name wherever the run is, which then goes on where it was'),
  when: when.optional(),
  caution: text.optional(),
  entries: z.array(z.union([item, line, question, note, heading])).min(1),
})

const range = {
  min: operand.optional().describe('A number, or a figure'),
  max: operand.optional(),
  label: text.optional().describe('As it is asked for: speed'),
  stopWords: text.optional().describe('Said at once where the value lies outside'),
  between: z.tuple([text, text]).optional().describe('Two earlier calls: the value is what lies between theirs'),
}
const readOut = z.discriminatedUnion('kind', [
  z.strictObject({ ...range, kind: z.literal('integer'), unit: z.enum(SPOKEN_UNITS).optional() }),
  z.strictObject({ ...range, kind: z.literal('speed') }),
  z.strictObject({
    ...range,
    kind: z.literal('decimal'),
    decimals: z.int().min(0).max(4),
    unit: z.enum(SPOKEN_UNITS).optional(),
  }),
  z.strictObject({ ...range, kind: z.literal('temperature'), unit: z.enum(['C', 'F']) }),
])
const call = z.strictObject({
  call: id,
  label: text,
  say: texts.min(1).describe('In the response notation, with <value> where a value is read out'),
  notBefore: positive.optional().describe('Seconds before which it cannot have been seen'),
  within: positive.optional(),
  after: text
    .optional()
    .describe('The call that notBefore and within run from, or begin; the call before where it is left out'),
  group: id.optional().describe('Calls beside one another with the same name come in any order'),
  value: readOut.optional().describe('The value read out with the call, and between which limits it is right'),
  reply: text.optional().describe('What Otherseat calls when it has heard this call: "rotate"'),
  when: when.optional(),
})
const pauseShape = { seconds: positive, say: text }
const pause = z.strictObject(pauseShape)
const abnormal = z.strictObject({
  abnormal: id,
  label: text,
  say: texts.min(1),
  stopWords: text,
  actions: texts.default([]),
  again: z
    .strictObject(pauseShape)
    .optional()
    .describe('Time that must pass before it may begin again, and what is said until then'),
})
const watch = z
  .strictObject({
    watch: id,
    name: text,
    begins: texts.min(1),
    hold: text.optional().describe('What the hands do until the last call'),
    calls: z.array(call).min(1),
    abnormal: z.array(abnormal).default([]),
    stopWords: text,
    attempts: z
      .strictObject({ most: z.int().min(1), rest: pause.optional(), cool: pause })
      .optional()
      .describe('After each start that was stopped the starter rests; after so many of them longer'),
    interlocks,
    when: when.optional(),
    caution: text.optional(),
  })
  .describe('A timed sequence that the crew calls out; times in seconds from the call before')

export const proceduresFile = z.strictObject({
  phases: z
    .array(
      z.strictObject({
        phase: id,
        name: text,
        activities: z.array(z.union([flow, list, watch, exchange, briefing])).min(1),
      }),
    )
    .min(1),
})

/** Ids of the lists, in order. */
export const listsIn = ({ phases }: ProceduresText): string[] =>
  phases.flatMap(({ activities }) => activities.flatMap((activity) => ('list' in activity ? activity.list : [])))

/** An entry of a list, as it is named to its author: "item brake". */
export function entryName(entry: EntryText): string {
  if ('item' in entry) return `item ${entry.item}`
  if ('line' in entry) return `line ${entry.line}`
  if ('question' in entry) return `question ${entry.question}`
  return 'note' in entry ? 'this note' : 'this heading'
}

export type EntryText = ListText['entries'][number]
export type ActivityText = ProceduresText['phases'][number]['activities'][number]
export type ProceduresText = z.infer<typeof proceduresFile>
export type ItemText = z.infer<typeof item>
export type QuestionText = z.infer<typeof question>
export type LineText = z.infer<typeof line>
export type FlowText = z.infer<typeof flow>
export type ListText = z.infer<typeof list>
export type WatchText = z.infer<typeof watch>
