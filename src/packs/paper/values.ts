/** Values in an answer on paper: places to fill in, numbers, bands. */

import { valueProblems } from '../../kernel/figures/entered.ts'
import type { Accept } from '../../kernel/kinds/kind.ts'
import { KINDS } from '../../kernel/kinds/kind.ts'
import { quoted } from '../../kernel/quoted.ts'
import { isStateWord } from '../../kernel/response/lexicon.ts'
import { measureOf } from '../buildFigures.ts'
import { NUMBERED, UNITS_WRITTEN } from './answerWords.ts'
import { BLANK } from './cells.ts'
import { plainNumber, type ValueKind, valueKind, type Wanted } from './valueKind.ts'

export interface ReadValue {
  /** In the notation; `<>` stands for the figure. */
  readonly say: string
  readonly wanted?: Wanted
  /** Behind its last token. */
  readonly end: number
}

interface About {
  readonly challenge: string
  readonly weight: 'kg' | 'lb'
  /** Words around it, in small letters. */
  readonly context: readonly string[]
}

const COUNT_WORDS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const NAMED = new Set(['v1', 'vr', 'v2', 'vref', 'vapp', 'vfto', 'vse', 'n1', 'n2', 'zfw', 'tow', 'cg', 'qfe'])
const LEAST = new Set(['min', 'minimum', 'above', 'over', '>', 'least'])
const MOST = new Set(['max', 'maximum', 'below', 'under', '<', 'most'])

/** The value that begins at this token, if one does. */
export function valueAt(tokens: readonly string[], at: number, about: About): ReadValue | undefined {
  const token = tokens[at] ?? ''
  if (token.startsWith(BLANK) || /^[x#]{2,6}([.,][x#]{1,3})?$/i.test(token)) return blankAt(tokens, at, about)
  if (/^fl$/i.test(token) && tokens[at + 1]?.startsWith(BLANK)) return blankAt(tokens, at + 1, about, 'level')
  const first = numberIn(token)
  if (first) return numberAt(tokens, at, at, first, about)
  // "MIN 25", "AT LEAST 25".
  const low = token.toLowerCase()
  if (!LEAST.has(low) && !MOST.has(low)) return undefined
  const next = numberIn(tokens[at + 1] ?? '')
  return next && numberAt(tokens, at, at + 1, next, about)
}

function blankAt(tokens: readonly string[], at: number, about: About, level?: 'level'): ReadValue {
  const token = tokens[at] ?? ''
  const shown = token.startsWith(BLANK)
    ? Number(token.slice(BLANK.length + 1) || 0)
    : (token.split(/[.,]/)[1]?.length ?? 0)
  const { unit, say, end } = unitAt(tokens, at + 1, about)
  // "V1 ____" in an answer is that speed, whatever is asked.
  const before = (tokens[at - 1] ?? '').toLowerCase()
  const named = NAMED.has(before) ? before : undefined
  const { kind, isNamed } = valueKind({
    words: named ? [named] : about.context,
    unit: level ? { said: '', dimension: level } : unit,
    decimals: Math.min(shown, 4),
    weight: about.weight,
  })
  const open = kind.open ? `; ${kind.open}` : ''
  const doubt = `a value to be read: taken for ${kind.called}, entered with each departure${isNamed ? '' : '; nothing says what it is'}${open}`
  const value = say === '' ? '<>' : `<> [${say}]`
  return {
    say: level ? `[flight level] ${value}` : value,
    wanted: { label: about.challenge, ...(named && { named }), kind, doubts: [doubt] },
    end,
  }
}

/** The unit behind a value, with the direction of a trim, which its kind holds. */
function unitAt(tokens: readonly string[], from: number, about: About) {
  let end = from
  const low = (at: number) => (tokens[at] ?? '').toLowerCase().replace(/\.$/, '')
  let unit = UNITS_WRITTEN.get(low(end))
  if (unit) end++
  if (unit?.dimension === 'inches' && low(end) === 'hg') {
    unit = UNITS_WRITTEN.get('inhg')
    end++
  }
  if (unit?.dimension === 'percent' && low(end) === 'mac') {
    unit = UNITS_WRITTEN.get('mac')
    end++
  }
  if (unit?.dimension === 'degrees' && ['c', 'f'].includes(low(end))) {
    unit = UNITS_WRITTEN.get(low(end) === 'c' ? '°c' : '°f')
    end++
  }
  const isTrim = unit?.dimension === 'trim' || about.context.includes('trim') || about.context.includes('trims')
  const direction: string[] = []
  while (isTrim && ['nose', 'up', 'down', 'anu', 'and', 'or', '/'].includes(low(end)) && direction.length < 4) {
    direction.push(low(end))
    end++
  }
  const say = unit === undefined || isTrim || unit.dimension === 'degrees' ? '' : unit.said
  return { unit, say, end, direction }
}

interface Written {
  readonly value: number
  readonly to?: number
  readonly decimals: number
  readonly bound?: '<' | '>'
  readonly glued: string
  /** Its digits as they stand. */
  readonly digits: string
}

const NUMBER = /^([<>]?)([+-]?\d[\d.,]{0,10})(?:-(\d[\d.,]{0,10}))?([a-z%°"'/]{0,8})$/i

function numberIn(token: string): Written | undefined {
  const [whole, bound, from = '', to, glued = ''] = NUMBER.exec(token) ?? []
  if (whole === undefined) return undefined
  const first = asNumber(from)
  const last = to === undefined ? undefined : asNumber(to)
  if (!first || (to !== undefined && !last)) return undefined
  return {
    value: first.value,
    decimals: Math.max(first.decimals, last?.decimals ?? 0),
    glued,
    digits: from,
    ...(last && { to: last.value }),
    ...(bound && { bound: bound as '<' | '>' }),
  }
}

/** "5,000" is five thousand, "29,92" has decimals. */
function asNumber(text: string): { readonly value: number; readonly decimals: number } | undefined {
  const grouped = /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)
  const plain = grouped ? text.replaceAll(',', '') : text.replace(',', '.')
  if (!/^[+-]?\d+(\.\d+)?$/.test(plain)) return undefined
  return { value: Number(plain), decimals: plain.split('.')[1]?.length ?? 0 }
}

function numberAt(
  tokens: readonly string[],
  start: number,
  at: number,
  number: Written,
  about: About,
): ReadValue | undefined {
  const rest = number.glued === '' ? tokens.slice(at + 1) : [number.glued, ...tokens.slice(at + 1)]
  const after = unitAt(rest, 0, about)
  const end = at + 1 + after.end - (number.glued === '' ? 0 : 1)
  const before = (tokens[start - 1] ?? '').toLowerCase()
  const next = (tokens[at + 1] ?? '').toLowerCase()
  // "3 green", "engine 2": part of the words.
  const isCount =
    number.glued === '' && !number.bound && number.to === undefined && start === at && /^\d$/.test(number.digits)
  if (isCount && (NUMBERED.has(before) || isCounted(next))) {
    return { say: COUNT_WORDS[number.value] ?? number.digits, end: at + 1 }
  }
  if (number.glued !== '' && !UNITS_WRITTEN.has(number.glued.toLowerCase())) return undefined
  const clues = { words: about.context, unit: after.unit, decimals: Math.min(number.decimals, 4), weight: about.weight }
  const { kind } = valueKind(clues)
  const limit = limitOf(tokens, start, at, number)
  const isOrMore = /^(or)$/i.test(tokens[end] ?? '') && /^(more|above|less|below)$/i.test(tokens[end + 1] ?? '')
  const behind = isOrMore ? (/^(more|above)$/i.test(tokens[end + 1] ?? '') ? 'min' : 'max') : undefined
  const side = limit ?? behind
  const isDown = after.direction.includes('down')
  const value = isDown ? -number.value : number.value
  const accept: Accept | undefined =
    number.to !== undefined ? { min: number.value, max: number.to } : side && { [side]: number.value }
  if (accept && number.to !== undefined && number.to < number.value) return undefined
  const fixed = fitting(kind, value, number)
  if (!fixed) return undefined
  const doubts = [toldAs(quoted(tokens.slice(start, isOrMore ? end + 2 : end).join(' ')), accept, fixed.kind)]
  if (kind.spec.kind === 'trim' && after.direction.length === 0 && value !== 0)
    doubts.push('the trim has no direction on the paper; it is taken for up')
  const accepted =
    fixed.kind.spec.kind === 'integer' || KINDS[fixed.kind.spec.kind].values === 'numbers' ? accept : undefined
  return {
    say: after.say === '' ? '<>' : `<> [${after.say}]`,
    wanted: {
      label: about.challenge,
      kind: fixed.kind,
      constant: fixed.constant,
      doubts,
      ...(accepted && { accept: accepted }),
    },
    end: isOrMore ? end + 2 : end,
  }
}

const isCounted = (word: string) => isStateWord(word) || /^(lights?|greens?|pumps?|doors?|times|turns)$/.test(word)

function limitOf(tokens: readonly string[], start: number, at: number, { bound }: Written): 'min' | 'max' | undefined {
  const word = start < at ? (tokens[start] ?? '').toLowerCase() : ''
  if (bound === '>' || LEAST.has(word)) return 'min'
  return bound === '<' || MOST.has(word) ? 'max' : undefined
}

function toldAs(shown: string, accept: Accept | undefined, kind: ValueKind): string {
  const kept = 'the same in every departure; where it is not, make it entered'
  if (!accept) return `${shown} is taken for ${kind.called}, ${kept}`
  const band = [
    accept.min === undefined ? '' : `from ${accept.min}`,
    accept.max === undefined ? '' : `up to ${accept.max}`,
  ]
  return `${shown} is taken for ${kind.called}; right is any value ${band.filter(Boolean).join(' ')}, the limit too`
}

/** The value as the kind holds it; a plain number where the kind cannot; nothing where no kind can. */
function fitting(kind: ValueKind, value: number, { digits, decimals }: Written) {
  const text = ['runway', 'digits', 'time', 'identifier', 'wind', 'callsign', 'route', 'choice']
  const isText = text.includes(kind.spec.kind)
  const own = { kind, constant: isText ? digits.padStart(kind.spec.kind === 'runway' ? 2 : 0, '0') : value }
  const plain = { kind: plainNumber(decimals), constant: value }
  return [own, plain].find((one) => holds(one.kind, one.constant))
}

function holds({ spec, unit }: ValueKind, value: number | string): boolean {
  const measure = measureOf({ ...spec, ...(unit && { unit }), label: '', alsoCalled: [] } as Parameters<
    typeof measureOf
  >[0])
  const declaration = { name: 'value', label: '', spec, alsoCalled: [], input: false, ...(measure && { measure }) }
  return valueProblems(declaration, value).length === 0
}
