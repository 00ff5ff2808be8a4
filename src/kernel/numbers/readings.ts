/**
 * Number tokens -> every number they can mean, as digits before and after the point, with the style in which they
 * were said. Digits and groups are strung together ("one twenty-eight", "ten thirteen"), or scaled by hundred and
 * thousand; what fits neither way has no reading. A reading marked `secondary` is possible but nobody's first
 * understanding ("twenty eight" for 208): it never makes an answer right, only doubtful.
 */

import type { Token } from './tokens.ts'

export type Style = 'single' | 'grouped' | 'scaled' | 'numeral'

export interface NumberReading {
  /** As said, leading zeros included; empty where the point came first. */
  readonly whole: string
  /** Undefined where no point was said; empty where nothing followed it. */
  readonly fraction: string | undefined
  readonly style: Style
  /** Digits as ICAO or FAA say them: one by one, or whole hundreds and thousands of such. */
  readonly standard: boolean
  readonly pointWord: string | undefined
  readonly secondary: boolean
  /** "eight point four thousand". */
  readonly thousandAfter: boolean
}

interface Part {
  readonly digits: string
  readonly style: Style
  readonly standard: boolean
  readonly secondary: boolean
}

function digitsOf(token: Token | undefined): string | undefined {
  const number = token?.number
  return number && 'digits' in number ? number.digits : undefined
}
const typeOf = (token: Token | undefined) => token?.number?.type

/** A unit digit that may complete a ten: "twenty eight". */
function unitAfterTens(token: Token | undefined): string | undefined {
  const digits = digitsOf(token)
  const type = typeOf(token)
  return (type === 'digit' || type === 'numeral') && digits?.length === 1 && digits !== '0' ? digits : undefined
}

/** Digits and groups strung together. */
function strung(tokens: readonly Token[]): readonly Part[] {
  let digits = ''
  let split = ''
  let style: Style = 'single'
  let standard = true
  let merged = false
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as Token
    const number = token.number
    if (!number) return []
    let piece: string
    let apart: string | undefined
    if (number.type === 'repeat') {
      const next = tokens[++i]
      const one = digitsOf(next)
      if (typeOf(next) === 'repeat' || one?.length !== 1) return []
      piece = one.repeat(number.times)
      standard = false
    } else if (number.type === 'tens') {
      const unit = unitAfterTens(tokens[i + 1])
      piece = unit ? number.digits[0] + unit : number.digits
      if (unit) {
        apart = number.digits + unit
        i++
      }
      style = 'grouped'
    } else if (number.type === 'teen') {
      piece = number.digits
      style = 'grouped'
    } else if (number.type === 'digit') {
      piece = number.digits
      if (number.form === 'oh') standard = false
    } else if (number.type === 'numeral') {
      piece = number.digits
      const unit = /^[2-9]0$/.test(piece) ? unitAfterTens(tokens[i + 1]) : undefined
      if (unit) {
        apart = piece[0] + unit
        piece += unit
        i++
      }
      if (piece.length > 1 && style === 'single') style = 'numeral'
    } else return []
    digits += piece
    split += apart ?? piece
    merged ||= apart !== undefined
  }
  if (digits === '') return []
  const part = { digits, style, standard: standard && style !== 'grouped', secondary: false }
  return merged ? [part, { ...part, digits: split, secondary: true }] : [part]
}

interface Below {
  readonly value: number
  readonly next: number
  readonly standard: boolean
}

/** One to ninety-nine as a cardinal, from `at`. */
function belowHundred(tokens: readonly Token[], at: number): Below | undefined {
  const token = tokens[at]
  const digits = digitsOf(token)
  if (digits === undefined) return undefined
  const type = typeOf(token)
  if (type === 'tens') {
    const unit = unitAfterTens(tokens[at + 1])
    return { value: Number(digits) + Number(unit ?? 0), next: at + (unit ? 2 : 1), standard: false }
  }
  if (type === 'numeral' && (digits.length > 2 || digits.startsWith('0'))) return undefined
  if (digits === '0') return undefined
  return { value: Number(digits), next: at + 1, standard: type === 'digit' }
}

const isAnd = (token: Token | undefined) => token?.text === 'and'

/** Up to 9,999 with "hundred" in it or none: "four hundred (and) twenty", "seventy-six hundred", "twenty-eight". */
function belowThousand(tokens: readonly Token[], at: number, mostHundreds: number): Below | undefined {
  const a = tokens[at]?.text === 'a' && typeOf(tokens[at + 1]) === 'hundred'
  const first = a ? { value: 1, next: at + 1, standard: false } : belowHundred(tokens, at)
  if (!first) {
    const digits = digitsOf(tokens[at])
    if (typeOf(tokens[at]) !== 'numeral' || digits?.length !== 3 || digits.startsWith('0')) return undefined
    return { value: Number(digits), next: at + 1, standard: true }
  }
  if (typeOf(tokens[first.next]) !== 'hundred') return first
  if (first.value > mostHundreds) return undefined
  const next = first.next + 1
  const rest = belowHundred(tokens, isAnd(tokens[next]) ? next + 1 : next)
  if (!rest) return { value: first.value * 100, next, standard: first.standard }
  return { value: first.value * 100 + rest.value, next: rest.next, standard: false }
}

/** How many thousands: a cardinal, or digits one by one ("one two thousand"). */
function thousands(tokens: readonly Token[], end: number): { value: number; standard: boolean } | undefined {
  const head = tokens.slice(0, end)
  if (head.length === 1 && head[0]?.text === 'a') return { value: 1, standard: false }
  const singles = strung(head)[0]
  if (singles && singles.style !== 'grouped' && singles.digits.length <= 3 && !singles.digits.startsWith('0')) {
    return { value: Number(singles.digits), standard: singles.standard }
  }
  const cardinal = belowThousand(head, 0, 9)
  return cardinal?.next === end ? { value: cardinal.value, standard: false } : undefined
}

/** "Thirteen thousand four fifty", "seven thousand two oh five": hundreds that go without saying so. */
function hundredsUnsaid(tokens: readonly Token[]): Below | undefined {
  const [first, second] = tokens
  const [rest] = strung(tokens)
  const isGrouped = typeOf(second) === 'tens' || typeOf(second) === 'teen' || second?.text === 'oh'
  const isWhole = typeOf(first) === 'digit' && isGrouped && rest?.digits.length === 3 && !rest.digits.startsWith('0')
  return isWhole ? { value: Number(rest.digits), next: tokens.length, standard: false } : undefined
}

/** Numbers said with hundred or thousand. */
function scaled(tokens: readonly Token[]): readonly Part[] {
  const at = tokens.findIndex((token) => typeOf(token) === 'thousand')
  const head = at < 0 ? undefined : thousands(tokens, at)
  if (at >= 0 && !head) return []
  let value = (head?.value ?? 0) * 1000
  let standard = head?.standard ?? true
  let next = at + 1
  if (next < tokens.length || at < 0) {
    const unsaid = at < 0 ? undefined : hundredsUnsaid(tokens.slice(next))
    const rest = unsaid ?? belowThousand(tokens, isAnd(tokens[next]) && at >= 0 ? next + 1 : next, at < 0 ? 99 : 9)
    if (!rest) return []
    value += rest.value
    standard &&= rest.standard && rest.value % 100 === 0
    next = unsaid ? tokens.length : rest.next
  }
  if (next !== tokens.length) return []
  return [{ digits: String(value), style: 'scaled', standard, secondary: false }]
}

function wholes(tokens: readonly Token[]): readonly Part[] {
  const hasScale = tokens.some((token) => {
    const type = typeOf(token)
    return type === 'hundred' || type === 'thousand'
  })
  return hasScale ? scaled(tokens) : strung(tokens)
}

/** Every number that the tokens can mean, the first understanding first; empty where there is none. */
export function readNumber(tokens: readonly Token[]): readonly NumberReading[] {
  const point = tokens.findIndex(({ number }) => number?.type === 'point')
  if (point < 0) {
    // Field by field: this runs thousands of times for each transmission.
    return wholes(tokens).map(({ digits, style, standard, secondary }) => ({
      whole: digits,
      fraction: undefined,
      style,
      standard,
      pointWord: undefined,
      secondary,
      thousandAfter: false,
    }))
  }
  const thousandAfter = typeOf(tokens.at(-1)) === 'thousand'
  const behind = tokens.slice(point + 1, thousandAfter ? -1 : undefined)
  const before = tokens.slice(0, point)
  const nothing: Part = { digits: '', style: 'single', standard: true, secondary: false }
  const fractions = behind.length === 0 ? [nothing] : strung(behind)
  const heads = before.length === 0 ? [nothing] : wholes(before)
  const pointWord = tokens[point]?.text
  return heads.flatMap((head) =>
    fractions.map((fraction) => ({
      whole: head.digits,
      fraction: fraction.digits,
      style: head.style === 'single' ? fraction.style : head.style,
      standard: head.standard && fraction.standard && pointWord !== 'dot',
      pointWord,
      secondary: head.secondary || fraction.secondary,
      thousandAfter,
    })),
  )
}
