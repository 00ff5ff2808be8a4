/**
 * Response -> paths: each way through its alternatives as a flat row of elements, figures and word slots. A phrase
 * right before a figure is its label ("V one" in `V one <v1>`): it may be left out, and it binds the number behind it.
 */

import { canonOf, tokensOf } from '../numbers/tokens.ts'
import { type Expansion, figuresOf, phrasesOf } from './expansion.ts'
import { CONFIRMATIONS, isStateWord } from './lexicon.ts'

export interface Phrase {
  readonly text: string
  /** Its tokens without spaces; what is heard is compared with this. */
  readonly canon: string
  readonly words: readonly string[]
}

export interface WordSlot {
  readonly type: 'word'
  readonly name: string
  readonly required: boolean
  /** Any of them says this part; the first is the usual one. */
  readonly wordings: readonly Phrase[]
}

export interface FigureSlot {
  readonly type: 'figure'
  readonly name: string
  /** Name of the figure, where a tag names the part otherwise. */
  readonly figure: string
  readonly required: boolean
  readonly labels: readonly Phrase[]
  /** Literal words behind the figure that may be its unit: `<fuel> kilos`. */
  readonly units: readonly Phrase[]
}

export type Slot = WordSlot | FigureSlot
export type Path = readonly Slot[]

/** More alternatives than any response has. */
const MOST_PATHS = 64

export function phraseOf(text: string): Phrase {
  const tokens = tokensOf(text)
  return { text, canon: canonOf(tokens), words: tokens.map((token) => token.text) }
}

function wordSlot(node: Expansion, required: boolean, tag: string | undefined): WordSlot | undefined {
  const texts = phrasesOf(node)
  const wordings = [...new Set(texts)].filter((text) => text !== '').map(phraseOf)
  const first = wordings[0]
  if (!first) return undefined
  return { type: 'word', name: tag ?? first.text, required: required && !texts.includes(''), wordings }
}

function unfold(node: Expansion, required: boolean): Path[] {
  if (node.type === 'figure') {
    const name = node.tag ?? node.name
    return [[{ type: 'figure', name, figure: node.name, required, labels: [], units: [] }]]
  }
  const tag = 'tag' in node ? node.tag : undefined
  if (node.type === 'optional') return unfold(node.part, false)
  if (figuresOf(node).length === 0 && (node.type !== 'sequence' || tag !== undefined)) {
    const slot = wordSlot(node, required, tag)
    return [slot ? [slot] : []]
  }
  if (node.type === 'either') return node.options.flatMap((option) => unfold(option, required)).slice(0, MOST_PATHS)
  const parts = node.type === 'sequence' ? node.parts : []
  return parts.reduce<Path[]>(
    (heads, part) => {
      const tails = unfold(part, required)
      return heads.flatMap((head) => tails.map((tail) => [...head, ...tail])).slice(0, MOST_PATHS)
    },
    [[]],
  )
}

/** Words that report: never a label, always a part. */
function reports(slot: WordSlot): boolean {
  return slot.wordings.some(({ words }) => words.some((word) => CONFIRMATIONS.has(word) || word === 'armed'))
}
const DIRECTIONS = new Set(['left', 'right', 'center', 'centre', 'forward', 'aft', 'first', 'second', 'high', 'low'])

function isLabel(slot: WordSlot, many: boolean): boolean {
  if (reports(slot)) return false
  const states = slot.wordings.some(({ words }) => words.some((word) => isStateWord(word) && !DIRECTIONS.has(word)))
  return many || !states
}

const UNIT_WORDS = new Set(
  'percent degrees units unit knots kilos kilograms kg pounds feet hectopascals inches hours'.split(' '),
)

/** Joins each label, and each unit, with its figure. */
function withLabels(path: Path): Path {
  const many = path.filter(({ type }) => type === 'figure').length > 1
  const slots: Slot[] = []
  for (const slot of path) {
    const last = slots.at(-1)
    if (slot.type === 'figure' && last?.type === 'word' && isLabel(last, many)) {
      slots[slots.length - 1] = { ...slot, labels: last.wordings }
    } else if (
      slot.type === 'word' &&
      last?.type === 'figure' &&
      slot.wordings.every(({ words }) => words.every((word) => UNIT_WORDS.has(word)))
    ) {
      slots[slots.length - 1] = { ...last, units: slot.wordings }
    } else slots.push(slot)
  }
  return slots
}

/** All paths through a response, labels joined with their figures. */
export function pathsOf(tree: Expansion): readonly Path[] {
  return unfold(tree, true).map(withLabels)
}
