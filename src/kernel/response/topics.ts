/**
 * Topics of a briefing in free talk: each is found by its own words wherever they are said, and what follows them is
 * compared with its values. Talk of something else ends what was said of a topic, but never within a number. A second
 * value, "not" before it or "is wrong" behind it makes a topic wrong, unless "correction" takes that back; one without
 * values is not covered by saying that it is not.
 */

import type { Figures } from '../kinds/kind.ts'
import { isNumberToken, type Token, type Transcript } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { askedFor } from './asked.ts'
import { conditionsIn, type Never, type OfCondition } from './contraries.ts'
import { judge } from './judge.ts'
import { isNegation } from './lexicon.ts'
import type { Part } from './model.ts'
import { partNames } from './readBack.ts'
import type { Response } from './response.ts'
import { withoutLength } from './runwayLength.ts'
import { scan } from './scan.ts'
import { type Mention, mentionsIn } from './topicMentions.ts'
import { keywordsOf } from './topicWords.ts'

export interface SpokenTopic {
  readonly id: string
  /** Ways to say it. */
  readonly say: readonly Response[]
  /** What speaks against it. */
  readonly never?: readonly Never[]
}

/** The part of a topic that what must never be said is. */
const CONTRARY = 'contrary'

/** Topic -> part -> what was last said of it. */
export type PartsOfTopics = Readonly<Record<string, Readonly<Record<string, 'ok' | 'wrong'>>>>

export interface Named {
  readonly topics: Readonly<Record<string, 'ok' | 'wrong'>>
  /** Of each of these topics its parts: what was said now, and before that in other breaths. */
  readonly parts: PartsOfTopics
  /** The words of wrong values. */
  readonly heard: readonly string[]
}

/** What was said of one topic so far: its parts, and whether it was named by words that need no value. */
interface Said {
  readonly parts: Map<string, Pick<Part, 'state' | 'heard'>>
  named: boolean
  /** Said not to be so, without another value. */
  denied: boolean
}

/**
 * What of the topics was said. A topic without figures is named by its words alone. `held` are parts of earlier breaths:
 * one value of several is put right by itself.
 */
export function topicsIn(
  topics: readonly SpokenTopic[],
  figures: Figures,
  heard: Transcript,
  held: PartsOfTopics = {},
): Named {
  const said = topics.map((): Said => ({ parts: new Map(), named: false, denied: false }))
  for (const { topic, isContrary, ...one } of conditionsOf(topics, heard).filter(({ stands }) => stands)) {
    const own = said[topic] as Said
    if (isContrary) own.parts.set(CONTRARY, { state: 'wrong', heard: wordsBetween(heard, one) })
    else own.named = true
  }
  for (const mention of mentionsOf(topics, figures, heard)) {
    const { before, deniedAfter } = mention
    const { parts, named, isRefused } = partsOf(mention, figures, heard)
    const own = said[mention.topic] as Said
    const isDenied = before === 'denied' || deniedAfter
    if (parts.length === 0 && (isRefused || deniedAfter)) own.denied = true
    if (named && !isDenied) own.named = true
    else if (deniedAfter) own.named = false
    for (const part of parts) {
      const known = own.parts.get(part.name)
      const state = isDenied && part.state === 'ok' ? 'wrong' : part.state
      if (!known || before === 'corrected' || known.state !== 'wrong') own.parts.set(part.name, { ...part, state })
    }
  }
  const wrong = said.flatMap(({ parts }) => [...parts.values()].filter(({ state }) => state === 'wrong'))
  const named = topics.flatMap((topic, index) => {
    const own = said[index] as Said
    const known = ownOf(held, topic.id)
    // What was right before is not, if it is denied now; of what was not said yet nothing is known.
    const isTakenBack = own.denied && known !== undefined && !own.named
    // Said rightly since, it is put right.
    if (own.named && known && CONTRARY in known && !own.parts.has(CONTRARY)) own.parts.set(CONTRARY, { state: 'ok' })
    const taken = isTakenBack ? Object.keys(known).map((name) => [name, 'wrong'] as const) : []
    const parts = { ...known, ...Object.fromEntries(taken), ...statesOf(own) }
    if (isTakenBack && own.parts.size === 0) return [{ id: topic.id, state: 'wrong' as const, parts }]
    const state = own.named || own.parts.size > 0 ? stateOf(topic, own.named, parts) : undefined
    return state ? [{ id: topic.id, state, parts }] : []
  })
  return {
    topics: Object.fromEntries(named.map(({ id, state }) => [id, state])),
    parts: Object.fromEntries(named.map(({ id, parts }) => [id, parts])),
    heard: wrong.flatMap(({ heard }) => (heard === undefined ? [] : [heard])),
  }
}

function mentionsOf(topics: readonly SpokenTopic[], figures: Figures, { tokens }: Transcript): Mention[] {
  const keywords = topics.flatMap(({ say }, topic) => say.flatMap((response) => keywordsOf(topic, response, figures)))
  const conditions = conditionsOf(topics, { tokens })
  // What is said of a condition names no other topic, and of a contradiction nothing: the "we stop" of "after V one we stop".
  const isOfCondition = ({ topic, from, named, hasFigures }: Mention) =>
    !hasFigures &&
    conditions.some((one) => from < one.to && named > one.from && (one.isContrary || one.topic !== topic))
  const mentions = mentionsIn(keywords, tokens).filter((mention) => !isOfCondition(mention))
  // "After V one we climb straight ahead to one thousand": with an engine out to another height than the first level.
  const isOfFailure = ({ from, words: [word = ''], own }: Mention) => {
    if (!word.startsWith('climb') || own.has(tokens[from - 1]?.text ?? '')) return false
    const before = mentions.findLast((one) => one.from < from)
    const condition = conditions.findLast((one) => one.from < from)
    const isLater = condition && condition.to > (before?.from ?? -1)
    return isLater || before?.hasFigures === false
  }
  return mentions.filter((mention) => !isOfFailure(mention))
}

const conditionsOf = (topics: readonly SpokenTopic[], { tokens }: Pick<Transcript, 'tokens'>): readonly OfCondition[] =>
  conditionsIn(
    topics.map(({ never = [] }) => never),
    tokens,
  )

const wordsBetween = ({ tokens }: Transcript, { from, to }: Pick<OfCondition, 'from' | 'to'>): string =>
  tokens
    .slice(from, to)
    .map(({ text }) => text)
    .join(' ')

/** Words that were taken for a topic: the part that names it, and those of its values. */
export interface TopicRead {
  readonly topic: string
  readonly name: Part
  readonly values: readonly Part[]
}

/** What of the words was taken for which topic, in their order; what is denied is wrong. */
export function topicsRead(topics: readonly SpokenTopic[], figures: Figures, heard: Transcript): readonly TopicRead[] {
  const stands = conditionsOf(topics, heard).filter((one) => one.stands)
  const conditions = stands.map((one): TopicRead => {
    const { id = '' } = topics[one.topic] ?? {}
    const state = one.isContrary ? 'wrong' : 'ok'
    return { topic: id, name: { name: id, kind: 'word', state, heard: wordsBetween(heard, one) }, values: [] }
  })
  const named = mentionsOf(topics, figures, heard).map((mention) => {
    const { id = '' } = topics[mention.topic] ?? {}
    const { parts: values } = partsOf(mention, figures, heard)
    const isDenied = mention.before === 'denied' || mention.deniedAfter
    const words = wordsBetween(heard, { from: mention.from, to: mention.named })
    const name: Part = { name: id, kind: 'word', state: 'ok', heard: words }
    return isDenied ? { topic: id, name: denied(name), values: values.map(denied) } : { topic: id, name, values }
  })
  return [...conditions, ...named]
}

/** What it was read as is not what is wrong with it. */
const denied = ({ name, kind, heard }: Part): Part => ({
  name,
  kind,
  state: 'wrong',
  ...(heard !== undefined && { heard }),
})

type States = PartsOfTopics[string]

const statesOf = ({ parts }: Said): States =>
  Object.fromEntries([...parts].flatMap(([name, { state }]) => (state === 'missing' ? [] : [[name, state] as const])))

function stateOf({ id, say }: SpokenTopic, named: boolean, parts: States): 'ok' | 'wrong' | undefined {
  if (Object.values(parts).includes('wrong')) return 'wrong'
  const isWhole = say.some((response) => {
    const { required } = partNames({ id, response })
    return required.size > 0 && [...required].every((name) => ownOf(parts, name) === 'ok')
  })
  return named || isWhole ? 'ok' : undefined
}

/** Between two values these words offer the second in place of the first. */
const INSTEAD = new Set(['or', 'rather', 'sorry', 'maybe', 'perhaps'])
/** A harmless word in their place keeps the two apart. */
const THEN = { text: 'then', canon: 'then' } as const

function partsOf(
  { response, hasFigures, from, to }: Mention,
  figures: Figures,
  { text, tokens }: Transcript,
): { parts: readonly Part[]; named: boolean; isRefused?: boolean } {
  if (!hasFigures) return { parts: [], named: true }
  const end = endOf(response, figures, tokens.slice(from, to)) + from
  const isRunway = response.figures.some((name) => ownOf(figures, name)?.kind === 'runway')
  const stretch = isRunway ? withoutLength(tokens.slice(from, end), tokens[end]) : tokens.slice(from, end)
  // "No runway left" is none of the two.
  if (isRunway && !stretch.some(isNumberToken)) return { parts: [], named: false }
  const said = stretch.map((token) => (INSTEAD.has(token.text) ? { ...token, ...THEN } : token))
  const { verdict, because, parts } = judge({ response, figures, heard: { text, tokens: said } })
  if (verdict === 'sayAgain' && because === 'twoValues') {
    return { parts: parts.map((part) => (part.heard === undefined ? part : { ...part, state: 'wrong' })), named: false }
  }
  const isClear = verdict !== 'sayAgain' && verdict !== 'command' && because !== 'refused'
  const isRefused = because === 'refused'
  return { parts: isClear ? parts.filter(({ state }) => state !== 'missing') : [], named: false, isRefused }
}

/** Where the topic's value ends: talk of something else after it is left out, and so is what leads over to that. */
function endOf(response: Response, figures: Figures, stretch: readonly Token[]): number {
  const spoken = stretch.filter((token) => !INSTEAD.has(token.text) && token.text !== 'correction')
  const ends = askedFor(response, figures).frames.map((frame) => {
    const atoms = scan(frame, spoken)
    const value = atoms.findIndex(({ type }) => type === 'run')
    const other =
      value < 0 ? undefined : atoms.slice(value).find(({ type }) => type === 'unknown' || type === 'command')
    if (other?.type === 'unknown') return stretch.indexOf(other.token)
    return other?.type === 'command' && other.tokens[0] ? stretch.indexOf(other.tokens[0]) : stretch.length
  })
  let end = Math.max(0, ...ends)
  const dangles = ({ text }: Token) => isNegation(text) || text === 'correction' || INSTEAD.has(text)
  while (end > 0 && dangles(stretch[end - 1] as Token)) end--
  return end
}
