/** Lines that show neither where the answer begins nor that there is one. */

import { quoted } from '../../kernel/quoted.ts'
import { CONFIRMATIONS, isStateWord } from '../../kernel/response/lexicon.ts'
import { UNITS_WRITTEN } from './answerWords.ts'
import { BLANK } from './cells.ts'
import { valueKind } from './valueKind.ts'

/** What is to be done -> how it is when it is done. */
const DONE: ReadonlyMap<string, string> = new Map([
  ['set', 'set'],
  ['check', 'checked'],
  ['verify', 'verified'],
  ['confirm', 'confirmed'],
  ['release', 'released'],
  ['close', 'closed'],
  ['open', 'open'],
  ['lock', 'locked'],
  ['unlock', 'unlocked'],
  ['arm', 'armed'],
  ['disarm', 'disarmed'],
  ['remove', 'removed'],
  ['retract', 'retracted'],
  ['extend', 'extended'],
  ['stow', 'stowed'],
  ['select', 'selected'],
  ['connect', 'connected'],
  ['disconnect', 'disconnected'],
  ['secure', 'secured'],
  ['fasten', 'fastened'],
  ['test', 'tested'],
  ['complete', 'completed'],
  ['review', 'reviewed'],
  ['brief', 'briefed'],
  ['obtain', 'obtained'],
  ['receive', 'received'],
  ['adjust', 'adjusted'],
  ['enter', 'entered'],
  ['apply', 'applied'],
])
const TURNS = new Set(['turn', 'switch', 'select', 'put'])
const ANSWERS = new Set([...DONE.values(), 'briefed', 'obtained', 'reviewed', 'free', 'aboard'])
const BETWEEN = new Set(['and', 'both', 'all', '&', 'fully'])

/** What stands in brackets at the end goes on with the answer. */
function withoutEnd(text: string): { readonly text: string; readonly aside: string } {
  const open = text.lastIndexOf('(')
  if (open <= 0 || !text.endsWith(')')) return { text, aside: '' }
  return { text: text.slice(0, open).trim(), aside: ` ${text.slice(open)}` }
}

export interface Loose {
  readonly challenge: string
  readonly answer: string
  readonly doubt: string
}

/** Of a line without a divider: "Parking brake set", "Set the parking brake"; undefined where it is no item. */
export function fromWords(text: string, isListed: boolean): Loose | undefined {
  const { text: bare, aside } = withoutEnd(text)
  const words = bare.replace(/[.;]$/, '').split(' ').filter(Boolean)
  const low = words.map((word) => word.toLowerCase().replace(/[,.;:]$/, ''))
  if (words.length > 12) return undefined
  const done = fromOrder(words, low)
  if (done)
    return {
      ...done,
      doubt: `${quoted(text)} is an order: it is asked as ${quoted(done.challenge)}, answered ${quoted(done.answer)}`,
    }
  let from = words.length
  const isAnswer = (word: string) => isStateWord(word) || CONFIRMATIONS.has(word) || ANSWERS.has(word)
  while (from > 1 && (isAnswer(low[from - 1] ?? '') || (from < words.length && BETWEEN.has(low[from - 1] ?? ''))))
    from--
  while (from < words.length && low[from] === 'and') from++
  if (from < words.length) {
    const tail = words.slice(from).join(' ') + aside
    const challenge = words
      .slice(0, from)
      .join(' ')
      .replace(/,$/, '')
      .replace(/ (is|are)$/i, '')
    return {
      challenge,
      answer: tail,
      doubt: `nothing divides ${quoted(text)}: ${quoted(tail)} is taken for the answer`,
    }
  }
  if (!isListed) return undefined
  return {
    challenge: words.join(' ') + aside,
    answer: 'checked',
    doubt: `the paper gives no answer to ${quoted(text)}; "checked" stands for it`,
  }
}

/** Whether it begins with what is to be done. */
export function isOrder(text: string): boolean {
  const first = text.split(' ', 1)[0]?.toLowerCase() ?? ''
  return DONE.has(first) || TURNS.has(first)
}

function fromOrder(
  words: readonly string[],
  low: readonly string[],
): { readonly challenge: string; readonly answer: string } | undefined {
  const first = low[0] ?? ''
  const after = low[1] === 'the' ? 2 : 1
  if (words.length <= after) return undefined
  if (TURNS.has(first)) {
    const side = ['on', 'off'].find((one) => low[1] === one || low.at(-1) === one)
    if (side !== undefined) {
      const rest = words.slice(1).filter((_, index) => low[index + 1] !== side && low[index + 1] !== 'the')
      if (rest.length > 0) return { challenge: rest.join(' '), answer: side }
    }
  }
  const answer = DONE.get(first)
  // "Open doors" may also be a state of the doors; an end that is a state is told by the rest.
  if (answer === undefined || isStateWord(low.at(-1) ?? '') || CONFIRMATIONS.has(low.at(-1) ?? '')) return undefined
  return { challenge: words.slice(after).join(' '), answer }
}

/** An underlined place between words: a value that is written in, or only a line that leads to the answer. */
export function blankOrLeader(challenge: string, rest: string): { readonly answer: string; readonly doubt?: string } {
  const [, ...after] = rest.split(' ')
  const next = (after[0] ?? '').toLowerCase()
  if (
    next === '' ||
    UNITS_WRITTEN.has(next) ||
    next.startsWith(BLANK) ||
    next === '/' ||
    next === 'up' ||
    next === 'down'
  )
    return { answer: rest }
  const words = challenge.toLowerCase().split(/[ ,]+/)
  const { isNamed } = valueKind({ words, unit: undefined, decimals: 0, weight: 'kg' })
  if (isNamed)
    return {
      answer: rest,
      doubt:
        'the underlined place is taken for a value that is written in; it may be only a line that leads to the answer',
    }
  return {
    answer: after.join(' '),
    doubt: 'the underlined place is taken for a line that leads to the answer; it may be a value that is written in',
  }
}

const SEATS = new Set('c cp cap capt captain f fo fe cm1 cm2 pf pm pnf p p1 p2 lhs rhs lp rp pilot'.split(' '))
const BOTH = new Set(['both', 'all', 'pilots', 'crew'])

/** Which seat a cell says answers; undefined where it says something else. */
export function seatIn(cell: string): 'one' | 'both' | undefined {
  const names = cell
    .toLowerCase()
    .replace('f/o', 'fo')
    .split(/[()[\],/&+ ]+/)
    .filter(Boolean)
  if (names.length === 0 || names.length > 3) return undefined
  if (names.every((name) => BOTH.has(name))) return 'both'
  if (!names.every((name) => SEATS.has(name))) return undefined
  return names.length > 1 ? 'both' : 'one'
}
