/**
 * A transmission of several elements read back in one breath: judged as one response, after each element that was said
 * with its own words has been put in its place. Which words are an element's own follows from wordings and kinds, never
 * from values (law 2).
 */

import type { KindSpec, Specs } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import { judge } from './judge.ts'
import { HARMLESS, KIND_NOUNS } from './lexicon.ts'
import type { JudgeInput, Judgement, Part } from './model.ts'
import { figuresOf, parseResponse } from './parse.ts'
import { pathsOf } from './path.ts'

export interface SpokenElement {
  readonly id: string
  /** In the response notation. */
  readonly response: string
}
export type ElementState = 'ok' | 'wrong' | 'missing'

/** All elements as one response. */
export function wholeResponse(elements: readonly SpokenElement[]): string {
  return elements.map(({ response }) => (response.includes('|') ? `(${response})` : response)).join(' ')
}

/** Judges what was said of several elements, in their order or each with its own words. Never throws. */
export function judgeReadBack(
  elements: readonly SpokenElement[],
  input: Omit<JudgeInput, 'response' | 'challenge'>,
): Judgement {
  const { text, named } = arrange(elements, input.figures, input.heard)
  const all = judgeArranged(elements, input, text)
  if (all.verdict === 'correct' || all.verdict === 'command') return all
  const some = elements.filter((_, index) => named.has(index))
  if (some.length === 0 || some.length === elements.length) return all
  // What was left out must not draw the others onto it: those that were named are judged by themselves.
  const bare = judgeArranged(some, input, text)
  const isClearer = bare.verdict !== 'sayAgain' && bare.verdict !== 'command' && wrongs(bare) <= wrongs(all)
  return isClearer ? withMissing(elements, some, bare, new Set(input.held)) : all
}

/** Nothing is less clear than "say again". */
const wrongs = ({ verdict, parts }: Judgement) =>
  verdict === 'sayAgain' ? Number.POSITIVE_INFINITY : parts.filter(({ state }) => state === 'wrong').length

function judgeArranged(
  elements: readonly SpokenElement[],
  input: Omit<JudgeInput, 'response' | 'challenge'>,
  text: string,
): Judgement {
  const whole = { ...input, response: wholeResponse(elements) }
  const placed = text === input.heard ? undefined : judge({ ...whole, heard: text })
  return placed && placed.verdict !== 'sayAgain' ? placed : judge(whole)
}

/** A judgement of some elements, with the required parts of the others beside it. */
function withMissing(
  elements: readonly SpokenElement[],
  judged: readonly SpokenElement[],
  judgement: Judgement,
  held: ReadonlySet<string>,
): Judgement {
  const others = elements.filter((element) => !judged.includes(element))
  const parts = others.flatMap(({ response }) =>
    slotsOf(response)
      .filter(({ required }) => required)
      .map(({ type, name }): Part => {
        const kind = type === 'figure' ? 'figure' : 'word'
        return { name, kind, state: held.has(name) ? 'ok' : 'missing' }
      }),
  )
  const all = [...judgement.parts, ...parts]
  const lacks = all.some(({ state }) => state === 'missing')
  if (judgement.verdict !== 'correct' || !lacks) return { ...judgement, parts: all }
  return { verdict: 'incomplete', because: 'missing', parts: all }
}

/** What a judgement says of each element: wrong where a part of it is, right only where all of it is. */
export function statesOf(
  elements: readonly SpokenElement[],
  { parts }: Judgement,
): Readonly<Record<string, ElementState>> {
  return Object.fromEntries(
    elements.map((element) => {
      const names = partNames(element)
      const own = parts.filter(({ name }) => names.all.has(name))
      const wrong = own.some(({ state }) => state === 'wrong')
      const right = [...names.required].every((name) => own.some((part) => part.name === name && part.state === 'ok'))
      const state = wrong ? 'wrong' : right && own.every((part) => part.state === 'ok') ? 'ok' : 'missing'
      return [element.id, state]
    }),
  )
}

/** Names of the parts that an element makes, and of those that must be said. */
export function partNames({ response }: SpokenElement): { all: ReadonlySet<string>; required: ReadonlySet<string> } {
  const slots = slotsOf(response)
  return {
    all: new Set(slots.map(({ name }) => name)),
    required: new Set(slots.filter(({ required }) => required).map(({ name }) => name)),
  }
}

function slotsOf(response: string) {
  const parsed = parseResponse(response)
  return 'response' in parsed ? pathsOf(parsed.response).flat() : []
}

interface Anchor {
  readonly words: readonly string[]
  readonly element: number
}

/** Phrases that belong to one element alone, longest first. */
function anchorsOf(elements: readonly SpokenElement[], specs: Specs): Anchor[] {
  const anchors = elements.flatMap(({ response }, element) => {
    const parsed = parseResponse(response)
    const figures = 'response' in parsed ? figuresOf(parsed.response) : []
    const literal = slotsOf(response).flatMap((slot) =>
      slot.type === 'word' ? slot.wordings : [...slot.labels, ...slot.units],
    )
    const own = [
      ...literal.map(({ words }) => words),
      ...figures.flatMap((name) => (Object.hasOwn(specs, name) ? namesOf(specs[name] as KindSpec) : [])),
    ]
    return own.map((words): Anchor => ({ words, element }))
  })
  const shared = (anchor: Anchor) =>
    anchors.some((other) => other.element !== anchor.element && other.words.join(' ') === anchor.words.join(' '))
  return anchors
    .filter((anchor) => anchor.words.some((word) => !HARMLESS.has(word)) && !shared(anchor))
    .sort((a, b) => b.words.length - a.words.length)
}

/** Words by which a value of a kind is known without a label. */
function namesOf(spec: KindSpec): string[][] {
  const wordsIn = (texts: readonly string[]) => texts.map((text) => tokensOf(text).map((token) => token.text))
  const nouns = wordsIn(KIND_NOUNS[spec.kind] ?? [])
  return spec.kind === 'choice' ? [...nouns, ...wordsIn(Object.values(spec.options).flat())] : nouns
}

/** The same words with each element in its place; what has no words of its own stays with what it stands behind. */
function arrange(
  elements: readonly SpokenElement[],
  specs: Specs,
  text: string,
): { text: string; named: ReadonlySet<number> } {
  const anchors = anchorsOf(elements, specs)
  const stretches: Token[][] = [[]]
  for (const token of tokensOf(text)) {
    if (token.text === 'correction') stretches.push([])
    else stretches.at(-1)?.push(token)
  }
  const named = new Set<number>()
  const parts = stretches.map((tokens) => {
    const chunks = chunksOf(anchors, tokens)
    for (const { element } of chunks) named.add(element)
    return inOrder(chunks, tokens, text)
  })
  return { text: parts.join(' correction '), named }
}

interface Chunk {
  readonly element: number
  readonly from: number
  to: number
}

/** Each from the words of one element to those of the next; the first has no words of its own. */
function chunksOf(anchors: readonly Anchor[], tokens: readonly Token[]): Chunk[] {
  const chunks: Chunk[] = [{ element: -1, from: 0, to: 0 }]
  for (let at = 0; at < tokens.length; ) {
    const anchor = anchors.find(({ words }) => words.every((word, i) => tokens[at + i]?.text === word))
    const end = at + (anchor?.words.length ?? 1)
    const last = chunks.at(-1)
    if (anchor && anchor.element !== last?.element) chunks.push({ element: anchor.element, from: at, to: end })
    else if (last) last.to = end
    at = end
  }
  return chunks
}

function inOrder(chunks: readonly Chunk[], tokens: readonly Token[], text: string): string {
  return chunks
    .toSorted((a, b) => a.element - b.element)
    .filter(({ from, to }) => to > from)
    .map(({ from, to }) => text.slice(tokens[from]?.start, tokens[to - 1]?.end))
    .join(' ')
}
