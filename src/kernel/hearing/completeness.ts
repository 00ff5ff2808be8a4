/**
 * How complete an answer is so far, so that a short pause may end it. It looks at kinds and counts, never at values or
 * at the right wording, so the length of the pause says nothing about being right (law 2).
 */

import type { SaidNumber } from '../kinds/definition.ts'
import { KINDS, type KindSpec, kindOf } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import type { Hearable } from './hearable.ts'

/**
 * `none`: nothing said yet; `partial`: more must follow; `complete`: as many values as are asked, each long enough, or
 * words, and more may follow; `final`: nothing that belongs to it can follow.
 */
export type Completeness = 'none' | 'partial' | 'complete' | 'final'

/** After these words something follows. */
const GOING_ON: ReadonlySet<string> = new Set([
  ...['not', 'and', 'both', 'full', 'all', 'the', 'is', 'correction', 'confirm', 'v', 'rotate', 'pass'],
  ...['point', 'decimal', 'minus', 'double', 'triple'],
  ...Object.values(KINDS).flatMap(({ heard }) => heard.openings),
])

/** Of what was said to this item. */
export function completeness(hearable: Hearable, text: string): Completeness {
  const { shapes, least } = hearable
  const tokens = tokensOf(text)
  const last = tokens.at(-1)
  if (!last) return 'none'
  if (GOING_ON.has(last.text)) return 'partial'
  // Only the open item has a known number of parts.
  const isOne = least !== undefined && least.parts <= 1
  if (shapes.length === 0) return isOne && tokens.length >= 2 ? 'final' : 'complete'
  const runs = numberRuns(tokens)
  // Only words: a command, a refusal, or the first part of an answer.
  if (runs.length === 0) return isOnlyWords(shapes, tokens) ? 'complete' : 'partial'
  const values = least?.values ?? shapes.length
  const said = valuesSaid(shapes, runs)
  if (said.length < values) return 'partial'
  return isOne && said.every((spec) => kindOf(spec).heard.isOfOneLength) ? 'final' : 'complete'
}

/** The shapes that the numbers fill, in their order. */
function valuesSaid(shapes: readonly KindSpec[], runs: readonly Run[]): KindSpec[] {
  let at = 0
  return shapes.filter((spec) => {
    const found = runs.findIndex((run, index) => index >= at && kindOf(spec).heard.isWhole(run, spec))
    if (found >= 0) at = found + 1
    return found >= 0
  })
}

/** One number as it was said, with its words, digits as such. */
export interface Run extends SaidNumber {
  readonly said: string
}

const SIGNS = { digit: 'd', teen: 'e', tens: 'y', hundred: 'h', thousand: 'k', point: '.', repeat: 'r', amount: '' }

export function numberRuns(tokens: readonly Token[]): Run[] {
  const runs: Run[] = []
  let signs = ''
  let said: string[] = []
  tokens.forEach((token, index) => {
    const { number } = token
    const isNumber = number !== undefined && !(number.type === 'digit' && number.form === 'homophone')
    if (isNumber) said.push(token.canon)
    if (isNumber) signs += number.type === 'numeral' ? 'd'.repeat(number.digits.length) : SIGNS[number.type]
    const joins = token.text === 'and' && signs !== ''
    if (signs !== '' && (index === tokens.length - 1 || !(isNumber || joins))) {
      const decimals = signs.includes('.') ? digitCount(signs.slice(signs.indexOf('.') + 1)) : 0
      const next = isNumber ? '' : token.text
      runs.push({ said: said.join(' '), signs, digits: digitCount(signs), decimals, next })
      signs = ''
      said = []
    }
  })
  return runs
}

const WORTH: Readonly<Record<string, number>> = { d: 1, e: 2, y: 2, h: 2, k: 3, r: 1 }
/** Digits that are said at least: "one twenty eight" has three, "ten thirteen" four. */
const digitCount = (signs: string) =>
  [...signs.replaceAll('yd', 'y')].reduce((sum, sign) => sum + (WORTH[sign] ?? 0), 0)

/** An answer to a value that begins with its unit or label is only begun. */
function isOnlyWords(shapes: readonly KindSpec[], tokens: readonly Token[]): boolean {
  return !shapes.some((spec) => kindOf(spec).options) && tokens.length >= 2
}
