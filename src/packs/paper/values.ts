/** Values in an answer on paper: places to fill in, numbers, bands. */

import { valueProblems } from '../../kernel/figures/entered.ts'
import type { Accept } from '../../kernel/kinds/kind.ts'
import { KINDS } from '../../kernel/kinds/kind.ts'
import { quoted } from '../../kernel/quoted.ts'
import { isStateWord } from '../../kernel/response/lexicon.ts'
import { measureOf } from '../buildFigures.ts'
import { NAMES_SAID, NUMBERED, UNITS_WRITTEN } from './answerWords.ts'
import { BLANK } from './cells.ts'
import { type Limit, limitBefore, limitBehind } from './limits.ts'
import { asWritten } from './unitTokens.ts'
import { plainNumber, type ValueKind, valueKind, type Wanted } from './valueKind.ts'

export interface ReadValue {
  /** In the notation; `<>` stands for the figure. */
  readonly say: string
  readonly wanted?: Wanted
  /** Behind its last token. */
  readonly end: number
  /** The place is for a limit, which the notation cannot compare with. */
  readonly isLimit?: boolean
}

interface About {
  readonly challenge: string
  readonly weight: 'kg' | 'lb'
  /** Words around it, in small letters. */
  readonly context: readonly string[]
}

const COUNT_WORDS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const NAMED = new Set([...NAMES_SAID.keys(), 'zfw', 'tow', 'cg', 'qfe'])
/** Of a time, "min" is minutes. */
const OF_TIME = ['time', 'timer', 'endurance', 'duration', 'elapsed', 'minutes', 'wait']

/** The value that begins at this token, if one does. */
export function valueAt(tokens: readonly string[], at: number, about: About): ReadValue | undefined {
  const token = tokens[at] ?? ''
  if (token.startsWith(BLANK) || /^[x#]{2,6}([.,][x#]{1,3})?$/i.test(token)) return blankAt(tokens, at, about)
  if (/^fl$/i.test(token) && tokens[at + 1]?.startsWith(BLANK)) return blankAt(tokens, at + 1, about, 'level')
  if (numberIn(token)) return numberAt(tokens, at, at, about)
  const limit = limitBefore(tokens, at)
  if (limit) {
    const from = at + limit.length
    if (tokens[from]?.startsWith(BLANK)) return { ...blankAt(tokens, from, about), isLimit: true }
    return numberIn(tokens[from] ?? '') && numberAt(tokens, at, from, about, limit)
  }
  // "BETWEEN 10 AND 99", "FROM 10 TO 99".
  if (!/^(between|from)$/i.test(token)) return undefined
  const read = numberIn(tokens[at + 1] ?? '') && numberAt(tokens, at, at + 1, about)
  return read?.wanted?.accept && read
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
  const limit = limitBehind(tokens, end)
  return {
    say: level ? `[flight level] ${value}` : value,
    wanted: { label: about.challenge, ...(named && { named }), kind, doubts: [doubt] },
    end: end + (limit?.length ?? 0),
    ...(limit && { isLimit: true }),
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
  while (
    isTrim &&
    ['nose', 'up', 'down', 'left', 'right', 'anu', 'and', 'or', '/'].includes(low(end)) &&
    direction.length < 4
  ) {
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
  readonly bound?: string
  readonly glued: string
  /** Its digits as they stand. */
  readonly digits: string
}

const NUMBER = /^([<>]?=?)([+-]?\d[\d.,]{0,10})(?:-(\d[\d.,]{0,10}))?([a-z%°"'/]{0,8})$/i

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
    ...(bound && { bound }),
  }
}

/** "5,000" is five thousand, "29,92" has decimals. */
function asNumber(text: string): { readonly value: number; readonly decimals: number } | undefined {
  const grouped = /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)
  const plain = grouped ? text.replaceAll(',', '') : text.replace(',', '.')
  if (!/^[+-]?\d+(\.\d+)?$/.test(plain)) return undefined
  return { value: Number(plain), decimals: plain.split('.')[1]?.length ?? 0 }
}

/** The number at this token; `start` is where its limit begins, if one stands before it. */
function numberAt(
  tokens: readonly string[],
  start: number,
  at: number,
  about: About,
  before?: Limit,
): ReadValue | undefined {
  const number = numberIn(tokens[at] ?? '')
  if (!number) return undefined
  // "3 green", "engine 2": part of the words.
  const isCount =
    number.glued === '' && !number.bound && number.to === undefined && start === at && /^\d$/.test(number.digits)
  const isOfWords = NUMBERED.has((tokens[start - 1] ?? '').toLowerCase()) || isCounted(tokens[at + 1] ?? '')
  if (isCount && isOfWords) return { say: COUNT_WORDS[number.value] ?? number.digits, end: at + 1 }
  if (number.glued !== '' && !UNITS_WRITTEN.has(number.glued.toLowerCase())) return undefined
  const one = withUnit(tokens, at, number, about)
  const other = secondEnd(tokens, one.end, about)
  const { unit, say, direction } = other && !one.unit ? other : one
  const isBetween = number.to === undefined && !other
  const own = limitBehind(tokens, one.end)
  const isMinutes =
    own?.side === 'min' && own.length === 1 && !unit && OF_TIME.some((word) => about.context.includes(word))
  const behind = isBetween && !isMinutes ? own : undefined
  const limit = before ?? boundOf(number.bound) ?? behind
  const end = other?.end ?? one.end + (behind?.length ?? (isMinutes ? 1 : 0))
  const written = { ...number, decimals: Math.min(Math.max(number.decimals, other?.decimals ?? 0), 4) }
  const { kind } = valueKind({
    words: about.context,
    unit: isMinutes ? UNITS_WRITTEN.get('minutes') : unit,
    decimals: written.decimals,
    weight: about.weight,
  })
  const to = other?.value ?? number.to
  const value = direction.includes('down') || direction.includes('left') ? -number.value : number.value
  const band = to === undefined ? undefined : { min: Math.min(value, to), max: Math.max(value, to) }
  const isLimited = band !== undefined || limit !== undefined
  const held = fitting(kind, band?.min ?? value, written, isLimited)
  if (!held) return undefined
  const accept = band ?? (limit && acceptOf(limit, value, held.kind))
  const constant = accept ? (accept.min ?? accept.max ?? held.constant) : held.constant
  const shown = quoted(asWritten(tokens.slice(start, end)))
  const doubts = [
    toldAs(shown, { kind: held.kind, value, ...(limit && !band && { limit }), ...(accept && { accept }) }),
  ]
  if (behind?.side === 'min' && !unit && behind.length === 1) doubts.push(`${shown}: or are minutes meant?`)
  if (isMinutes) doubts.push(`${shown} is taken for minutes; or is it the least that is right?`)
  if (held.kind === kind && kind.open && kind.called !== 'a whole number') doubts.push(kind.open)
  return {
    say: isMinutes ? '<> [minutes]' : say === '' ? '<>' : `<> [${say}]`,
    wanted: { label: about.challenge, kind: held.kind, constant, doubts, ...(accept && { accept }) },
    end,
  }
}

function withUnit(tokens: readonly string[], at: number, { glued }: Written, about: About) {
  const rest = glued === '' ? tokens.slice(at + 1) : [glued, ...tokens.slice(at + 1)]
  const after = unitAt(rest, 0, about)
  return { ...after, end: at + 1 + after.end - (glued === '' ? 0 : 1) }
}

/** "... TO 99 C" behind the first end of a band. */
function secondEnd(tokens: readonly string[], at: number, about: About) {
  if (!/^(to|thru|through|and|-)$/i.test(tokens[at] ?? '')) return undefined
  if (/^and$/i.test(tokens[at] ?? '') && !tokens.slice(0, at).some((token) => /^between$/i.test(token)))
    return undefined
  const number = numberIn(tokens[at + 1] ?? '')
  if (!number || number.bound || number.to !== undefined) return undefined
  if (number.glued !== '' && !UNITS_WRITTEN.has(number.glued.toLowerCase())) return undefined
  return { ...withUnit(tokens, at + 1, number, about), value: number.value, decimals: number.decimals }
}

const isCounted = (word: string) =>
  isStateWord(word.toLowerCase()) && !['min', 'max', 'minimum', 'maximum'].includes(word.toLowerCase())
    ? true
    : /^(lights?|greens?|pumps?|doors?|times|turns)$/i.test(word)

function boundOf(bound: string | undefined): Limit | undefined {
  return bound ? limitBefore([bound], 0) : undefined
}

/** A limit that is itself wrong is one step of the value further in. */
function acceptOf({ side, isIn }: Limit, value: number, { spec }: ValueKind): Accept {
  const places = placesOf(spec)
  const step = isIn ? 0 : side === 'min' ? 10 ** -places : -(10 ** -places)
  return { [side]: Number((value + step).toFixed(places)) }
}

/** Decimals with which such a value is said. */
function placesOf(spec: ValueKind['spec']): number {
  if ('decimals' in spec && spec.decimals !== undefined) return spec.decimals
  if (spec.kind === 'altimeter') return spec.unit === 'inHg' ? 2 : 0
  return spec.kind === 'mach' ? 2 : spec.kind === 'frequency' ? 3 : 0
}

interface Taken {
  readonly kind: ValueKind
  readonly value: number
  readonly limit?: Limit
  readonly accept?: Accept
}

function toldAs(shown: string, { kind, value, limit, accept }: Taken): string {
  const kept = 'the same in every departure; where it is not, make it entered'
  if (!accept) return `${shown} is taken for ${kind.called}, ${kept}`
  if (!limit) return `${shown}: right is ${kind.called} from ${accept.min} to ${accept.max}, both ends too; ${kept}`
  const most = limit.side === 'min' ? 'least' : 'most'
  if (limit.isIn) return `${shown}: ${value} is taken for the ${most} that is right, of ${kind.called}; ${kept}`
  const bound = `${limit.side === 'min' ? 'from' : 'up to'} ${accept[limit.side]}`
  return `${shown}: right is ${kind.called} ${bound}, so ${value} itself is refused; ${kept}`
}

/** The value as the kind holds it; a plain number where the kind cannot, or has no limits; nothing where no kind can. */
function fitting(kind: ValueKind, value: number, { digits, decimals }: Written, isLimited: boolean) {
  const isText = KINDS[kind.spec.kind].values !== 'numbers'
  const own = { kind, constant: isText ? digits.padStart(kind.spec.kind === 'runway' ? 2 : 0, '0') : value }
  const plain = { kind: plainNumber(decimals), constant: value }
  return (isText && isLimited ? [plain] : [own, plain]).find((one) => holds(one.kind, one.constant))
}

function holds({ spec, unit }: ValueKind, value: number | string): boolean {
  const measure = measureOf({ ...spec, ...(unit && { unit }), label: '', alsoCalled: [] } as Parameters<
    typeof measureOf
  >[0])
  const declaration = { name: 'value', label: '', spec, alsoCalled: [], input: false, ...(measure && { measure }) }
  return valueProblems(declaration, value).length === 0
}
