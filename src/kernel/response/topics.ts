/**
 * Topics of a briefing in free talk: each is looked for by its own words wherever they are said, and what stands behind
 * them is compared with its values. Talk of something else ends what was said of a topic, but never within a number; a
 * second value, or "not", makes it wrong, as does the first one, unless "correction" takes that back.
 */

import type { Figures } from '../kinds/kind.ts'
import type { Token, Transcript } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { askedFor } from './asked.ts'
import { judge } from './judge.ts'
import { HARMLESS, HESITATIONS, isNegation } from './lexicon.ts'
import type { Part } from './model.ts'
import { partNames } from './readBack.ts'
import type { Response } from './response.ts'
import { withoutLength } from './runwayLength.ts'
import { scan } from './scan.ts'
import { type Keyword, keywordsOf } from './topicWords.ts'

export interface SpokenTopic {
  readonly id: string
  /** Ways to say it. */
  readonly say: readonly Response[]
}

export interface Named {
  readonly topics: Readonly<Record<string, 'ok' | 'wrong'>>
  /** What was taken for wrong values. */
  readonly heard: readonly string[]
}

/** What was said of one topic so far: its parts, and whether it was named by words that need no value. */
interface Said {
  readonly parts: Map<string, Pick<Part, 'state' | 'heard'>>
  named: boolean
}

/** What of the topics was said. A topic without figures is named by its words alone. */
export function topicsIn(topics: readonly SpokenTopic[], figures: Figures, heard: Transcript): Named {
  const { tokens } = heard
  const said = topics.map((): Said => ({ parts: new Map(), named: false }))
  for (const mention of mentionsIn(topics, figures, tokens)) {
    const { before } = mention
    const { parts, named } = partsOf(mention, figures, heard)
    const own = said[mention.topic] as Said
    if (before !== 'denied' && named) own.named = true
    for (const part of parts) {
      const known = own.parts.get(part.name)
      const state = before === 'denied' && part.state === 'ok' ? 'wrong' : part.state
      if (!known || before === 'corrected' || known.state !== 'wrong') own.parts.set(part.name, { ...part, state })
    }
  }
  const wrong = said.flatMap(({ parts }) => [...parts.values()].filter(({ state }) => state === 'wrong'))
  return {
    topics: Object.fromEntries(
      topics.flatMap((topic, index) => {
        const state = stateOf(topic, said[index] as Said)
        return state ? [[topic.id, state]] : []
      }),
    ),
    heard: wrong.flatMap(({ heard }) => (heard === undefined ? [] : [heard])),
  }
}

function stateOf({ id, say }: SpokenTopic, { parts, named }: Said): 'ok' | 'wrong' | undefined {
  if ([...parts.values()].some(({ state }) => state === 'wrong')) return 'wrong'
  const isWhole = say.some((response) => {
    const { required } = partNames({ id, response })
    return required.size > 0 && [...required].every((name) => parts.get(name)?.state === 'ok')
  })
  return named || isWhole ? 'ok' : undefined
}

interface Mention extends Keyword {
  readonly from: number
  /** Where the next words of a topic begin. */
  readonly to: number
  readonly before: 'denied' | 'corrected' | undefined
}

function mentionsIn(topics: readonly SpokenTopic[], figures: Figures, tokens: readonly Token[]): Mention[] {
  const keywords = topics
    .flatMap(({ say }, topic) => say.flatMap((response) => keywordsOf(topic, response, figures)))
    .sort((a, b) => b.words.length - a.words.length)
  const begins = tokens.flatMap((_, from) => {
    const here = keywords.filter(
      ({ words, own }) =>
        words.every((word, i) => tokens[from + i]?.text === word) &&
        // A flight level is none of the levels that are asked for, unless they are.
        (words[0] !== 'level' || own.has('flight') || tokens[from - 1]?.text !== 'flight'),
    )
    // Of one topic the longest words.
    return here
      .filter((one, i) => here.findIndex(({ topic }) => topic === one.topic) === i)
      .map((keyword) => ({ ...keyword, from }))
  })
  return begins.map((begin) => {
    const later = begins.map(({ from }) => from).filter((from) => from > begin.from)
    return { ...begin, to: Math.min(tokens.length, ...later), before: saidBefore(tokens, begin) }
  })
}

/** What stands right before the words, but for little ones and others of its own. */
function saidBefore(tokens: readonly Token[], { from, own }: Keyword & { from: number }): Mention['before'] {
  for (let at = from - 1; at >= 0; at--) {
    const { text, number } = tokens[at] as Token
    if (text === 'correction') return 'corrected'
    if (isNegation(text)) return 'denied'
    if (number || !(own.has(text) || HARMLESS.has(text) || HESITATIONS.has(text))) return undefined
  }
  return undefined
}

/** Between two values they offer the second in place of the first. */
const INSTEAD = new Set(['or', 'rather', 'sorry', 'maybe', 'perhaps'])
/** Harmless, and parts the two. */
const THEN = { text: 'then', canon: 'then' } as const

function partsOf(
  { response, hasFigures, from, to }: Mention,
  figures: Figures,
  { text, tokens }: Transcript,
): { parts: readonly Part[]; named: boolean } {
  if (!hasFigures) return { parts: [], named: true }
  const end = endOf(response, figures, tokens.slice(from, to)) + from
  const isRunway = response.figures.some((name) => ownOf(figures, name)?.kind === 'runway')
  const stretch = isRunway ? withoutLength(tokens.slice(from, end), tokens[end]) : tokens.slice(from, end)
  const said = stretch.map((token) => (INSTEAD.has(token.text) ? { ...token, ...THEN } : token))
  const { verdict, because, parts } = judge({ response, figures, heard: { text, tokens: said } })
  if (verdict === 'sayAgain' && because === 'twoValues') {
    return { parts: parts.map((part) => (part.heard === undefined ? part : { ...part, state: 'wrong' })), named: false }
  }
  const isClear = verdict !== 'sayAgain' && verdict !== 'command' && because !== 'refused'
  return { parts: isClear ? parts.filter(({ state }) => state !== 'missing') : [], named: false }
}

/** End of what belongs together: talk of something else behind the value is left out, and what dangles before that. */
function endOf(response: Response, figures: Figures, stretch: readonly Token[]): number {
  const spoken = stretch.filter((token) => !INSTEAD.has(token.text) && token.text !== 'correction')
  const ends = askedFor(response, figures).scenes.map((scene) => {
    const atoms = scan(scene, spoken)
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
