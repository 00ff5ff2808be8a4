/** "Correction", and what people say in its place: "sorry", "make that", "no wait". What follows replaces what went before. */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { HARMLESS, HESITATIONS, isStateWord } from './lexicon.ts'

/** Longest first. "I say again" is no correction: the same comes once more. */
const MARKS: readonly (readonly string[])[] = [
  ['i', 'beg', 'your', 'pardon'],
  ['beg', 'your', 'pardon'],
  ['i', 'tell', 'a', 'lie'],
  ['tell', 'a', 'lie'],
  ['i', 'stand', 'corrected'],
  ['my', 'apologies'],
  ['let', 'me', 'start', 'again'],
  ['let', 'me', 'correct', 'that'],
  ['let', 'me', 'say', 'that', 'again'],
  ['or', 'rather'],
  ['i', 'mean'],
  ['i', 'meant'],
  ['make', 'that'],
  ['make', 'it'],
  ['scratch', 'that'],
  ['strike', 'that'],
  ['scrap', 'that'],
  ['hang', 'on'],
  ['hold', 'on'],
  ['my', 'mistake'],
  ['my', 'bad'],
  ['pardon', 'me'],
  ['excuse', 'me'],
  ['correction'],
  ['sorry'],
  ['apologies'],
  ['pardon'],
  ['oops'],
  ['whoops'],
  ['rather'],
  ['wait'],
  ['actually'],
  ['nah'],
  ['no'],
]

/** By themselves they are too weak: "one two six, no, one two eight" stays two values. Two of them in a row do. */
const WEAK: ReadonlySet<string> = new Set(['no', 'nah', 'actually', 'wait', 'rather', 'hang on', 'hold on'])

const CORRECTION = 'correction'

/** Each correction as the one word for it. What only excuses, with nothing before it, falls; what takes back and puts nothing
 * in its place stays, as words that nobody knows. */
export function withCorrections(tokens: readonly Token[], isOwn: (word: string) => boolean): readonly Token[] {
  const out: Token[] = []
  for (let at = 0; at < tokens.length; ) {
    const end = marksEnd(tokens, at, isOwn)
    const said = tokens.slice(at, end)
    const again = end === at ? beginsAgain(tokens, at) : at
    if (again > at) {
      out.push(correctionAt(tokens[at] as Token))
      at = again
      continue
    }
    const isWeak = WEAK.has(said.map(({ text }) => text).join(' '))
    if (end === at || isWeak) {
      const next = Math.max(end, at + 1)
      out.push(...tokens.slice(at, next))
      at = next
      continue
    }
    const isStandard = said.some(({ text }) => text === CORRECTION)
    const takesBack = tells(out)
    if (isStandard || (takesBack && tells(tokens.slice(end)))) {
      const begun = wholeOf(out, tokens, end)
      out.push(correctionAt(tokens[at] as Token), ...begun)
    } else if (takesBack) out.push(...said)
    at = end
  }
  return out
}

const correctionAt = (token: Token): Token => ({ ...token, text: CORRECTION, canon: CORRECTION, number: undefined })

const runBefore = (tokens: readonly Token[], at: number) =>
  tokens.slice(tokens.slice(0, at).findLastIndex((token) => !isNumberToken(token)) + 1, at)
function runFrom(tokens: readonly Token[], at: number): readonly Token[] {
  let end = at
  while (end < tokens.length && isNumberToken(tokens[end] as Token)) end++
  return tokens.slice(at, end)
}

/** Sounds and words of one who breaks off. */
const BREAKING_OFF: readonly (readonly string[])[] = [
  ['let', 'me', 'see'],
  ['what', 'was', 'it'],
  ['what', 'is', 'it'],
  ['yes'],
  ['yeah'],
  ['ja'],
]

/** "One six three, yes, one six three zero": where, broken off, the same number begins again, and is longer; else `at`. */
function beginsAgain(tokens: readonly Token[], at: number): number {
  const before = runBefore(tokens, at)
  if (before.length < 2) return at
  let from = at
  for (;;) {
    const said = BREAKING_OFF.find((words) => words.every((word, index) => tokens[from + index]?.text === word))
    const length = HESITATIONS.has(tokens[from]?.text ?? '') ? 1 : (said?.length ?? 0)
    if (length === 0) break
    from += length
  }
  const again = runFrom(tokens, from)
  const isSame = before.every(({ canon }, index) => again[index]?.canon === canon)
  return from > at && isSame && again.length > before.length ? from : at
}

/** "One two four decimal six five, correction, decimal six seven five": what stands of it before the point. */
function wholeOf(before: readonly Token[], tokens: readonly Token[], end: number): readonly Token[] {
  const isPoint = (token: Token | undefined) => token?.number?.type === 'point'
  const point = before.findLastIndex(isPoint)
  if (!isPoint(tokens[end]) || point < 0) return []
  return before.slice(before.slice(0, point).findLastIndex((token) => !isNumberToken(token)) + 1, point)
}

function markEnd(tokens: readonly Token[], at: number, isOwn: (word: string) => boolean): number {
  const mark = MARKS.find((words) => words.every((word, index) => tokens[at + index]?.text === word))
  return mark && !mark.every(isOwn) ? at + mark.length : at
}

/** Several marks in a row, with sounds of thinking between: "no, sorry, make that". */
function marksEnd(tokens: readonly Token[], at: number, isOwn: (word: string) => boolean): number {
  let end = markEnd(tokens, at, isOwn)
  if (end === at) return at
  for (;;) {
    let next = end
    while (HESITATIONS.has(tokens[next]?.text ?? '')) next++
    const further = markEnd(tokens, next, isOwn)
    if (further === next) return end
    end = further
  }
}

/** Something in it can be replaced, or replace. */
const tells = (tokens: readonly Token[]): boolean =>
  tokens.some((token) => isNumberToken(token) || isStateWord(token.text) || !HARMLESS.has(token.text))
