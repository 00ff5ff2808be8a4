/** TUNING corpus: figures of every kind, ways to say them, and ways to get them wrong. Rules were made looking at this. */

import type { Figure, Value } from '../../src/kernel/kinds/kind.ts'
import type { Random } from './case.ts'
import { sayComposed } from './composedSayings.ts'

const UNITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const TEENS = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ')
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']

export function digits(text: string, random: Random): string {
  return [...text]
    .map((d) => {
      if (d === '9' && random.chance(0.4)) return 'niner'
      if (d === '5' && random.chance(0.1)) return 'fife'
      if (d === '3' && random.chance(0.1)) return 'tree'
      if (d === '0' && random.chance(0.2)) return 'oh'
      return UNITS[Number(d)]
    })
    .join(' ')
}

export function cardinal(n: number): string {
  if (n < 10) return UNITS[n] as string
  if (n < 20) return TEENS[n - 10] as string
  if (n < 100) return n % 10 === 0 ? (TENS[n / 10] as string) : `${TENS[Math.floor(n / 10)]}-${UNITS[n % 10]}`
  if (n < 1000) {
    const rest = n % 100
    return `${UNITS[Math.floor(n / 100)]} hundred${rest ? ` ${cardinal(rest)}` : ''}`
  }
  const rest = n % 1000
  return `${cardinal(Math.floor(n / 1000))} thousand${rest ? ` ${cardinal(rest)}` : ''}`
}

/** Two digits as a group: "twenty-eight", "oh five". */
function pair(text: string): string {
  return text.startsWith('0') ? `oh ${UNITS[Number(text[1])]}` : cardinal(Number(text))
}

/** Any way to say a whole number of no special kind. */
function whole(n: number, random: Random): string {
  const text = String(n)
  const ways = [digits(text, random), cardinal(n)]
  if (text.length === 3 && text[1] !== '0') ways.push(`${UNITS[Number(text[0])]} ${cardinal(Number(text.slice(1)))}`)
  if (random.chance(0.2)) ways.push(text)
  return random.of(ways)
}

/** Kinds of one piece; values of several have tests of their own. */
export type OnePieceKind = Exclude<Figure['kind'], 'callsign' | 'wind' | 'route'>

export function makeFigure(kind: OnePieceKind, random: Random): Figure {
  switch (kind) {
    case 'decimal':
      return { kind, decimals: 1, unit: 'percent', min: 0, max: 110, value: random.below(1000) / 10 }
    case 'trim': {
      const axis = random.of(['pitch', 'roll', 'yaw'] as const)
      return { kind, decimals: 1, axis, min: -12, max: 12, value: (random.below(161) - 80) / 10 }
    }
    case 'integer':
      return { kind, min: 0, max: 999, value: random.below(300) }
    case 'speed':
      return { kind, unit: 'kt', min: 40, max: 400, value: 80 + random.below(120) }
    case 'mach':
      return { kind, min: 0.4, max: 0.92, value: (60 + random.below(28)) / 100 }
    case 'weight':
      return {
        kind,
        unit: 'kg',
        min: 1000,
        max: 99_999,
        value: 100 * (20 + random.below(700)),
        ...(random.chance(0.3) ? { say: 'thousands' as const } : {}),
      }
    case 'temperature':
      return { kind, unit: 'C', min: -60, max: 60, value: random.below(80) - 35 }
    case 'digits':
      return { kind, length: 4, value: Array.from({ length: 4 }, () => random.below(8)).join('') }
    case 'altimeter':
      return random.chance(0.5)
        ? { kind, unit: 'hPa', value: 960 + random.below(80) }
        : { kind, unit: 'inHg', value: (2850 + random.below(220)) / 100 }
    case 'heading':
      return { kind, value: 1 + random.below(360) }
    case 'runway':
      return { kind, value: `${String(1 + random.below(36)).padStart(2, '0')}${random.of(['', '', 'L', 'R', 'C'])}` }
    case 'altitude':
      return { kind, unit: 'ft', min: 0, max: 45_000, value: 100 * (5 + random.below(200)) }
    case 'flightLevel':
      return { kind, min: 0, max: 600, value: 5 * (6 + random.below(80)) }
    case 'frequency':
      return { kind, value: (118_000 + random.below(720) * 25) / 1000 }
    case 'time':
      return { kind, value: `${String(random.below(24)).padStart(2, '0')}${String(random.below(60)).padStart(2, '0')}` }
    case 'identifier':
      return {
        kind,
        value: `${String.fromCharCode(65 + random.below(26))}${random.chance(0.6) ? 1 + random.below(9) : ''}`,
      }
    case 'choice':
      return {
        kind,
        value: random.of(['up', '1', '5', '15', '30']),
        options: {
          up: ['up', 'zero'],
          '1': ['one'],
          '5': ['five'],
          '15': ['fifteen', 'one five'],
          '30': ['thirty', 'full'],
        },
      }
  }
}

const LETTERS =
  'alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo sierra tango uniform victor whiskey xray yankee zulu'.split(
    ' ',
  )

/** One of the ways in which the value of a figure is said in plain phraseology. */
export function sayFigure(figure: Figure, random: Random): string {
  const { value } = figure
  switch (figure.kind) {
    case 'decimal':
      return sayDecimals(Number(value), figure.decimals, random) + random.of(['', '', ' percent'])
    case 'trim':
      return sayTrim(figure, random)
    case 'integer':
      return whole(Number(value), random)
    case 'speed':
      return whole(Number(value), random) + random.of(['', '', ' knots'])
    case 'mach':
      return sayMach(Number(value), random)
    case 'weight':
      return sayWeight(figure, random)
    case 'temperature': {
      const n = Number(value)
      const unit = random.of(['', ' degrees', ' degrees celsius'])
      return `${n < 0 ? 'minus ' : random.of(['', '', 'plus '])}${whole(Math.abs(n), random)}${unit}`
    }
    case 'digits': {
      const text = String(value)
      if (text.length !== 4) return digits(text, random)
      const ways = [digits(text, random), `${pair(text.slice(0, 2))} ${pair(text.slice(2))}`, text]
      if (/^[1-9]000$/.test(text)) ways.push(cardinal(Number(text)))
      if (text[0] === text[1]) ways.push(`double ${digits(text[0] as string, random)} ${digits(text.slice(2), random)}`)
      return random.of(ways)
    }
    case 'altimeter':
      return sayAltimeter(figure, random)
    case 'heading': {
      const text = String(value).padStart(3, '0')
      const ways = [digits(text, random), digits(text, random), text]
      if (text[0] !== '0' && text[1] !== '0') ways.push(`${UNITS[Number(text[0])]} ${cardinal(Number(text.slice(1)))}`)
      return random.of(['', '', 'heading ']) + random.of(ways) + random.of(['', '', ' degrees'])
    }
    case 'runway': {
      const text = String(value)
      const side = { L: ' left', R: ' right', C: ' center' }[text.slice(2)] ?? ''
      const number = random.of([
        digits(text.slice(0, 2), random),
        digits(text.slice(0, 2), random),
        text.slice(0, 2),
        cardinal(Number(text.slice(0, 2))),
      ])
      return random.of(['', 'runway ']) + number + side
    }
    case 'altitude':
      return sayAltitude(Number(value), random) + random.of(['', '', ' feet'])
    case 'flightLevel': {
      const text = String(value).padStart(3, '0')
      const ways = [digits(text, random), digits(text, random), text]
      if (/^[1-9]00$/.test(text)) ways.push(`${UNITS[Number(text[0])]} hundred`)
      return random.of(['flight level ', 'flight level ', 'level ', '']) + random.of(ways)
    }
    case 'frequency': {
      const [head = '', tail = ''] = shownWith(Number(value), 3).split('.')
      const short = tail.replace(/0+$/, '') || '0'
      const fraction = random.of([short, short, tail])
      if (random.chance(0.15)) return `${head}.${fraction}`
      const first = random.of([digits(head, random), `${UNITS[Number(head[0])]} ${cardinal(Number(head.slice(1)))}`])
      return `${first} ${random.of(['point', 'decimal'])} ${digits(fraction, random)}`
    }
    case 'time': {
      const text = String(value)
      if (text.length !== 4) return digits(text, random)
      return random.of([digits(text, random), `${pair(text.slice(0, 2))} ${pair(text.slice(2))}`, text])
    }
    case 'identifier':
      return [...String(value)]
        .map((c) => (/\d/.test(c) ? digits(c, random) : (LETTERS[c.charCodeAt(0) - 65] as string)))
        .join(' ')
    case 'callsign':
    case 'wind':
    case 'route':
      return sayComposed(figure, random)
    case 'choice':
      return random.of(figure.options[String(value)] ?? [])
  }
}

/** At least so many decimals; more where a slip made them. */
function shownWith(n: number, decimals: number): string {
  const exact = String(Number(n.toFixed(6)))
  return exact.split('.')[1] && (exact.split('.')[1] as string).length > decimals ? exact : n.toFixed(decimals)
}

function sayDecimals(n: number, decimals: number, random: Random): string {
  const text = shownWith(n, decimals)
  const [head = '', tail = ''] = text.split('.')
  if (random.chance(0.2)) return text
  return `${random.of([digits(head, random), cardinal(Number(head))])} ${random.of(['point', 'decimal'])} ${digits(tail, random)}`
}

function sayTrim(figure: Extract<Figure, { kind: 'trim' }>, random: Random): string {
  const n = Number(figure.value)
  if (n === 0) return random.of(['zero', 'neutral', 'zero point zero', '0.0'])
  const side = figure.axis === 'roll' || figure.axis === 'yaw'
  const direction = side ? (n < 0 ? 'left' : 'right') : n < 0 ? 'down' : 'up'
  const amount = sayDecimals(Math.abs(n), 1, random)
  const ways = [
    `${amount} ${direction}`,
    `${amount} ${direction}`,
    `${amount} units ${direction}`,
    `${direction} ${amount}`,
  ]
  if (!side) ways.push(`${amount} nose ${direction}`, `nose ${direction} ${amount}`)
  if (n < 0) ways.push(`minus ${amount}`)
  return random.of(ways)
}

function sayWeight(figure: Extract<Figure, { kind: 'weight' }>, random: Random): string {
  const n = Number(figure.value)
  const ways = [cardinal(n), digits(String(n), random), String(n), n.toLocaleString('en-US')]
  if (figure.say === 'thousands') ways.push(sayDecimals(n / 1000, 1, random), sayDecimals(n / 1000, 1, random))
  return random.of(ways) + random.of(['', '', ' kilos', ' kilograms'])
}

function sayMach(n: number, random: Random): string {
  const [head = '', tail = ''] = shownWith(n, 2).split('.')
  const whole = head === '0' ? random.of(['', '', 'zero ']) : `${digits(head, random)} `
  const said = `${whole}${random.of(['point', 'decimal'])} ${digits(tail, random)}`
  return random.of(['mach ', 'mach ', '']) + random.of([said, said, `${head}.${tail}`])
}

function sayAltimeter(figure: Extract<Figure, { kind: 'altimeter' }>, random: Random): string {
  if (figure.unit === 'inHg') {
    const text = shownWith(Number(figure.value), 2)
    const [head = '', tail = ''] = text.split('.')
    return random.of([
      digits(head + tail, random),
      tail.length === 2 ? `${cardinal(Number(head))} ${pair(tail)}` : text,
      `${digits(head, random)} ${random.of(['point', 'decimal'])} ${digits(tail, random)}`,
      text,
    ])
  }
  const text = String(figure.value)
  const ways = [digits(text, random), text]
  if (/^10\d\d$/.test(text))
    ways.push(`ten ${text[2] === '0' ? `oh ${UNITS[Number(text[3])]}` : cardinal(Number(text.slice(2)))}`)
  if (text === '1000') ways.push('one thousand')
  return random.of(ways) + random.of(['', '', ' hectopascals'])
}

function sayAltitude(n: number, random: Random): string {
  const thousands = Math.floor(n / 1000)
  const hundreds = (n % 1000) / 100
  const tail = hundreds ? ` ${UNITS[hundreds]} hundred` : ''
  const ways = [String(n), n.toLocaleString('en-US'), cardinal(n)]
  if (n % 100 === 0 && thousands > 0) ways.push(`${digits(String(thousands), random)} thousand${tail}`)
  return random.of(ways)
}

/** Another value of the same figure, as a slip makes it; undefined where the slip cannot be made. */
export function slip(figure: Figure, how: Slip, random: Random): Value | undefined {
  if (figure.kind === 'choice')
    return how === 'changed'
      ? random.of(Object.keys(figure.options).filter((each) => each !== figure.value))
      : undefined
  const text = written(figure)
  const places = [...text].flatMap((c, i) => (/\d/.test(c) ? [i] : []))
  const at = random.of(places)
  const swap = [...text]
  switch (how) {
    case 'changed': {
      swap[at] = String((Number(text[at]) + 1 + random.below(9)) % 10)
      break
    }
    case 'swapped': {
      const next = places[places.indexOf(at) + 1]
      if (next === undefined || text[at] === text[next]) return undefined
      swap[at] = text[next] as string
      swap[next] = text[at] as string
      break
    }
    case 'dropped':
      swap.splice(at, 1)
      break
    case 'doubled':
      swap.splice(at, 0, text[at] as string)
      break
    case 'turned':
      return turn(figure)
  }
  return parsed(figure, swap.join(''))
}
export type Slip = 'changed' | 'swapped' | 'dropped' | 'doubled' | 'turned'

function turn(figure: Figure): Value | undefined {
  if (figure.kind === 'trim' || figure.kind === 'temperature')
    return figure.value === 0 ? undefined : -Number(figure.value)
  if (figure.kind !== 'runway') return undefined
  const side = String(figure.value).slice(2)
  return side === 'L'
    ? `${String(figure.value).slice(0, 2)}R`
    : side === 'R'
      ? `${String(figure.value).slice(0, 2)}L`
      : undefined
}

/** True where the value is one the instrument can show, so that it is clearly another one. */
export function isClear(figure: Figure, value: Value): boolean {
  const number = Number(value)
  switch (figure.kind) {
    case 'altimeter':
      return figure.unit === 'hPa' ? number >= 900 && number <= 1080 : number >= 27 && number < 32
    case 'heading':
      return number >= 1 && number <= 360
    case 'frequency':
      return number >= 118 && number < 137
    case 'digits':
      return String(value).length === figure.length
    case 'time':
      return /^([01]\d|2[0-3])[0-5]\d$/.test(String(value))
    case 'runway':
      return /^(0[1-9]|[12]\d|3[0-6])[LRC]?$/.test(String(value))
    case 'identifier':
    case 'callsign':
    case 'wind':
    case 'route':
    case 'choice':
      return true
    default:
      return number >= (figure.min ?? Number.NEGATIVE_INFINITY) && number <= (figure.max ?? Number.POSITIVE_INFINITY)
  }
}

function written(figure: Figure): string {
  switch (figure.kind) {
    case 'decimal':
    case 'trim':
      return Number(figure.value).toFixed(figure.decimals)
    case 'mach':
      return Number(figure.value).toFixed(2)
    case 'altimeter':
      return figure.unit === 'inHg' ? Number(figure.value).toFixed(2) : String(figure.value)
    case 'frequency':
      return Number(figure.value)
        .toFixed(3)
        .replace(/0{1,2}$/, '')
    case 'heading':
    case 'flightLevel':
      return String(figure.value).padStart(3, '0')
    default:
      return String(figure.value)
  }
}

function parsed(figure: Figure, text: string): Value | undefined {
  if (typeof figure.value === 'string') return text === figure.value ? undefined : text
  const number = Number(text)
  return text === '' || Number.isNaN(number) || number === figure.value ? undefined : number
}
