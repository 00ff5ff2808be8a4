/** What people say in place of the standard form of a value, put into that form: "four below zero", "second edition". */

import type { Token } from '../numbers/tokens.ts'
import type { Frame } from './frame.ts'

const MINUS = { text: 'minus', canon: 'minus', number: undefined, foreign: false } as const

export function inForm(frames: readonly Frame[], tokens: readonly Token[]): readonly Token[] {
  const has = (kind: string) => frames.some(({ specs }) => specs.some((spec) => spec?.kind === kind))
  const signed = has('temperature') ? withSign(tokens) : tokens
  const sided = withoutOne(frames, signed)
  return has('integer') ? withCount(frames, sided) : sided
}

/** "Sixty two on the left one": the left is meant, and no number. */
function withoutOne(frames: readonly Frame[], tokens: readonly Token[]): readonly Token[] {
  if (!frames.some(({ figureCount }) => figureCount > 1)) return tokens
  return tokens.filter(
    ({ text }, at) =>
      text !== 'one' ||
      !SIDES.has(tokens[at - 1]?.text ?? '') ||
      tokens[at - 2]?.text !== 'the' ||
      tokens[at + 1]?.number,
  )
}
const SIDES: ReadonlySet<string> = new Set(['left', 'right'])

/** "Four degrees below zero", "four below": minus four. */
function withSign(tokens: readonly Token[]): readonly Token[] {
  const below = tokens.findIndex(({ text }) => text === 'below')
  let end = below
  while (UNITS.has(tokens[end - 1]?.text ?? '')) end--
  let begin = end
  while (tokens[begin - 1]?.number && begin > 0) begin--
  const first = tokens[begin]
  const next = tokens[below + 1]
  if (below < 0 || begin === end || !first || SIGNS.has(tokens[begin - 1]?.text ?? '')) return tokens
  const isOfZero = next?.text === 'zero'
  if (!isOfZero && next && !AFTER_BELOW.has(next.text)) return tokens
  const sign: Token = { ...MINUS, start: first.start, end: first.start }
  return [...tokens.slice(0, begin), sign, ...tokens.slice(begin, below), ...tokens.slice(below + (isOfZero ? 2 : 1))]
}
const UNITS: ReadonlySet<string> = new Set(['degrees', 'degree', 'celsius', 'centigrade'])
const SIGNS: ReadonlySet<string> = new Set(['minus', 'plus'])
/** Below zero then, and nothing else. */
const AFTER_BELOW: ReadonlySet<string> = new Set('outside today now and so out kinda bit a this on'.split(' '))

const ORDINALS: ReadonlyMap<string, string> = new Map([
  ...([
    ['first', 'one'],
    ['second', 'two'],
    ['third', 'three'],
    ['fourth', 'four'],
    ['fifth', 'five'],
  ] as const),
])

/** "Second edition": edition two. */
function withCount(frames: readonly Frame[], tokens: readonly Token[]): readonly Token[] {
  const at = tokens.findIndex(({ text }, index) => ORDINALS.has(text) && isLabel(frames, tokens[index + 1]))
  const [ordinal, label] = [tokens[at], tokens[at + 1]]
  const word = ORDINALS.get(ordinal?.text ?? '')
  const isTwice = tokens.filter(({ text }) => text === label?.text).length > 1
  if (!ordinal || !label || word === undefined || isTwice) return tokens
  const digits = String([...ORDINALS.values()].indexOf(word) + 1)
  const count: Token = { ...ordinal, text: word, canon: digits, number: { type: 'digit', digits, form: 'plain' } }
  return [...tokens.slice(0, at), label, count, ...tokens.slice(at + 2)]
}

const isLabel = (frames: readonly Frame[], token: Token | undefined) =>
  token !== undefined &&
  frames.some(({ path, specs }) =>
    path.some(
      (slot, index) =>
        slot.type === 'figure' &&
        specs[index]?.kind === 'integer' &&
        slot.labels.some(({ words }) => words.length === 1 && words[0] === token.text),
    ),
  )
