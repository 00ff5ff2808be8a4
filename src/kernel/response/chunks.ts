/** A transmission cut where the words of another element begin: "squawk ...", "runway ...", the names of a choice. */

import type { KindSpec, Specs } from '../kinds/kind.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { HARMLESS, KIND_NOUNS } from './lexicon.ts'
import { figuresOf, parseResponse } from './parse.ts'
import { pathsOf } from './path.ts'
import type { SpokenElement } from './readBack.ts'

export interface Anchor {
  readonly words: readonly string[]
  /** Places of the elements that have it among their own words: mostly one. */
  readonly elements: readonly number[]
}

export interface Chunk {
  /** Place of its element; -1 for what stands before any element's own words. */
  readonly element: number
  readonly text: string
  readonly words: readonly string[]
}

/** Phrases by which elements are known, longest first. */
export function anchorsOf(elements: readonly SpokenElement[], specs: Specs): Anchor[] {
  const anchors = new Map<string, { words: readonly string[]; elements: number[] }>()
  elements.forEach(({ response }, element) => {
    for (const words of ownPhrases(response, specs)) {
      if (words.every((word) => HARMLESS.has(word) || LITTLE.has(word))) continue
      const key = words.join(' ')
      const known = anchors.get(key)
      if (!known) anchors.set(key, { words, elements: [element] })
      else if (!known.elements.includes(element)) known.elements.push(element)
    }
  })
  return [...anchors.values()].sort((a, b) => b.words.length - a.words.length)
}

/** Neither names anything; "point" is rather that of a number. */
const LITTLE = new Set(['to', 'of', 'on', 'at', 'for', 'point'])

function ownPhrases(response: string, specs: Specs): (readonly string[])[] {
  const parsed = parseResponse(response)
  if (!('response' in parsed)) return []
  const literal = pathsOf(parsed.response)
    .flat()
    .flatMap((slot) => (slot.type === 'word' ? slot.wordings : slot.labels))
    .map(({ words }) => words)
  const names = figuresOf(parsed.response).flatMap((name) =>
    Object.hasOwn(specs, name) ? namesOf(specs[name] as KindSpec) : [],
  )
  return [...literal, ...names]
}

/** Words by which a value of a kind is known without a label. */
function namesOf(spec: KindSpec): string[][] {
  const wordsIn = (texts: readonly string[]) => texts.map((text) => tokensOf(text).map((token) => token.text))
  if (spec.kind === 'choice') return wordsIn(Object.values(spec.options).flat())
  return wordsIn(KIND_NOUNS[spec.kind] ?? [])
}

interface Cut {
  readonly element: number
  readonly tokens: Token[]
}

/**
 * The stretches of a text, one an element; what "correction" takes back is left out. A correction without words of an
 * element's own goes to the stretch before it.
 */
export function chunksOf(anchors: readonly Anchor[], text: string): Chunk[] {
  const tokens = tokensOf(text)
  let cuts: Cut[] = [{ element: -1, tokens: [] }]
  let correcting: Token | undefined
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at] as Token
    if (token.text === 'correction') {
      correcting = token
      at += 1
      continue
    }
    const anchor = anchors.find(({ words }) => words.every((word, i) => tokens[at + i]?.text === word))
    const own = tokens.slice(at, at + (anchor?.words.length ?? 1))
    const last = cuts.at(-1) as Cut
    const named = anchor && elementFor(anchor, cuts, correcting !== undefined)
    if (named !== undefined && (named !== last.element || correcting)) {
      if (correcting) cuts = cuts.filter(({ element }) => element !== named)
      cuts.push({ element: named, tokens: own })
    } else last.tokens.push(...(correcting ? [correcting] : []), ...own)
    correcting = undefined
    at += own.length
  }
  return joined(cuts.filter((cut) => cut.tokens.length > 0)).map(({ element, tokens: own }) => ({
    element,
    text: textOf(own, text),
    words: own.map((token) => token.text),
  }))
}

/** Words that several elements have ("runway") go on with the one under way until its number has come. */
function elementFor({ elements }: Anchor, cuts: readonly Cut[], again: boolean): number | undefined {
  const last = cuts.at(-1)
  const isUnderWay = last !== undefined && elements.includes(last.element)
  if (elements.length === 1 || (isUnderWay && !again && !last.tokens.some(isNumberToken))) {
    return isUnderWay ? last.element : elements[0]
  }
  const said = (element: number) => cuts.some((cut) => cut.element === element)
  return elements.find((element) => said(element) === again) ?? elements[0]
}

/** As it was written, without what lies between tokens that were parted. */
function textOf(tokens: readonly Token[], text: string): string {
  let written = ''
  let end = -1
  for (const token of tokens) {
    written += `${written === '' || token.start === end ? '' : ' '}${text.slice(token.start, token.end)}`
    end = token.end
  }
  return written
}

/** What was said of one element in two places is judged together: two values there are two values. */
function joined(cuts: readonly Cut[]): Cut[] {
  const byElement = new Map<number, Cut>()
  for (const { element, tokens } of cuts) {
    const before = byElement.get(element)
    byElement.set(element, { element, tokens: [...(before?.tokens ?? []), ...tokens] })
  }
  return [...byElement.values()]
}
