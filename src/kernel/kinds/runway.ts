/** Runways: two digits, with a side where there are parallels. */

import { sayDigits } from '../numbers/say.ts'
import { asWritten, capitals, unsignedRun, writtenAs } from './codes.ts'
import { SLIP, type TextKind } from './definition.ts'
import { affixTable, type Reading } from './reading.ts'
import { TWIN } from './shapes.ts'
import type { Value } from './value.ts'

export interface RunwaySpec {
  readonly kind: 'runway'
}

const AFFIXES = affixTable([
  [{ role: 'noun' }, ['runway']],
  [{ role: 'direction', direction: 'L' }, ['left', 'l']],
  [{ role: 'direction', direction: 'R' }, ['right', 'r']],
  [{ role: 'direction', direction: 'C' }, ['center', 'centre', 'c']],
])
const SIDE_WORDS = new Map([
  ['L', ' left'],
  ['R', ' right'],
  ['C', ' center'],
])
const SIDE = /[LRC]$/

const numberOf = (value: Value) => capitals(String(value)).replace(SIDE, '').padStart(2, '0')
const hasSide = (value: Value) => SIDE.test(capitals(String(value)))

/** The parallel one, or the other end of the strip. */
function otherRunway(text: string): string {
  const side = text.slice(2)
  if (side === 'L' || side === 'R') return `${text.slice(0, 2)}${side === 'L' ? 'R' : 'L'}`
  return `${String(((Number(text.slice(0, 2)) + 17) % 36) + 1).padStart(2, '0')}${side}`
}

export const runway: TextKind<RunwaySpec> = {
  values: 'text',
  fields: {},
  written: () => '01 to 36, with L, R or C where there are parallels: "08", "27L"',
  isWritten: writtenAs(/^(0[1-9]|[12]\d|3[0-6])[LRC]?$/),
  tidied: capitals,
  canonical: asWritten,

  affixes: () => AFFIXES,
  nouns: ['runway'],
  read(tokens) {
    const run = unsignedRun(tokens, AFFIXES)
    if (!run || new Set(run.directions).size > 1) return []
    const side = run.directions[0] ?? ''
    if (run.number.length === 0) return side === '' ? [] : [{ value: side, standard: true, lacks: 'digits' }]
    return run.numbers.flatMap(({ whole, fraction, style, standard, secondary }): Reading[] => {
      if (fraction !== undefined || whole.length > 2 || style === 'scaled') return []
      const implausible = Number(whole) < 1 || Number(whole) > 36
      const value = `${whole.padStart(2, '0')}${side}`
      return [{ value, standard: standard && whole.length === 2, secondary, implausible }]
    })
  },
  say(value, _, phraseology) {
    const text = String(value)
    return `${sayDigits(text, phraseology !== 'plain')}${SIDE_WORDS.get(text.slice(-1)) ?? ''}`
  },
  show: String,

  heard: {
    shapes: () => ['d', ...TWIN],
    before: ['runway'],
    behind: ['left', 'right', 'center'],
    openings: ['runway'],
    mostDigits: () => 2 + SLIP,
    isWhole: () => true,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  /** Only the side was said. */
  isRightSoFar: (said, expected) => capitals(String(expected)).endsWith(String(said)),
  direction: {
    isTurned: (said, expected) => numberOf(said) === numberOf(expected),
    isLeftOut: (said, expected) => numberOf(said) === numberOf(expected) && !hasSide(said),
  },
  mistake: (value) => otherRunway(String(value)),
  isReadBack: true,
}
