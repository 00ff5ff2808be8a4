/** CHECK corpus: how values are said. Written apart from the tuning corpus: other words, other seeds, other frames. */

import type { Figure } from '../../src/kernel/kinds/kind.ts'
import type { Random } from './case.ts'
import { sayComposed } from './composedSayings.ts'

/** How a pilot of this corpus says digits: plain, with radio words, or as a recogniser writes them. */
const DIALECTS: readonly (readonly string[])[] = [
  ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'],
  ['zero', 'wun', 'two', 'tree', 'fower', 'fife', 'six', 'seven', 'ait', 'niner'],
  ['oh', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'niner'],
  ['nought', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'],
  ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'],
]
const SMALL =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  )
const BY_TEN = 'x x twenty thirty forty fifty sixty seventy eighty ninety'.split(' ')

export const spell = (text: string, random: Random): string => {
  const dialect = random.of(DIALECTS)
  return Array.from(text.replace(/\D/g, ''), (c) => dialect[Number(c)]).join(' ')
}

function inWords(n: number, random: Random): string {
  const and = random.chance(0.4) ? ' and ' : ' '
  if (n >= 1000) {
    const rest = n % 1000
    const tail = rest === 0 ? '' : rest < 100 ? `${and}${inWords(rest, random)}` : ` ${inWords(rest, random)}`
    return `${inWords(Math.floor(n / 1000), random)} thousand${tail}`
  }
  if (n >= 100) {
    const head = n < 200 && random.chance(0.2) ? 'a' : SMALL[Math.floor(n / 100)]
    return `${head} hundred${n % 100 === 0 ? '' : `${and}${inWords(n % 100, random)}`}`
  }
  if (n < 20) return SMALL[n] as string
  return `${BY_TEN[Math.floor(n / 10)]}${n % 10 === 0 ? '' : `${random.of(['-', ' '])}${SMALL[n % 10]}`}`
}

/** "One twenty-eight": the last two digits as a group. */
function tailGroup(text: string, random: Random): string | undefined {
  const tail = Number(text.slice(-2))
  if (text.length !== 3 || tail < 10) return undefined
  return `${spell(text.slice(0, 1), random)} ${random.chance(0.15) ? tail : inWords(tail, random)}`
}

/** Two groups of two: "ten thirteen", "oh seven fifteen". */
function twoGroups(text: string, random: Random): string {
  const group = (two: string) =>
    Number(two) >= 10 ? inWords(Number(two), random) : `${random.of(['zero', 'oh'])} ${spell(two.slice(1), random)}`
  return `${group(text.slice(0, 2))} ${group(text.slice(2))}`
}

const pick = (random: Random, ...ways: readonly (string | undefined)[]): string =>
  random.of(ways.filter((way): way is string => way !== undefined))

function amount(text: string, random: Random): string {
  const [head = '', tail = ''] = text.split('.')
  const point = random.of(['point', 'decimal', 'point', 'dot'])
  return pick(
    random,
    `${spell(head, random)} ${point} ${spell(tail, random)}`,
    `${inWords(Number(head), random)} ${point} ${spell(tail, random)}`,
    text,
    head === '0' ? `${point} ${spell(tail, random)}` : undefined,
  )
}

const tidy = (n: number) => String(Number(n.toFixed(4)))
const withDecimals = (n: number, decimals: number) =>
  (tidy(n).split('.')[1] ?? '').length > decimals ? tidy(n) : n.toFixed(decimals)

export function pronounce(figure: Figure, random: Random): string {
  const number = Number(figure.value)
  const text = String(figure.value)
  switch (figure.kind) {
    case 'decimal': {
      const said = amount(withDecimals(Math.abs(number), figure.decimals), random)
      const unit = figure.unit === 'percent' ? random.of(['', ' percent', '%']) : ''
      return `${number < 0 ? 'minus ' : ''}${said}${/[a-z]$/.test(said) && unit === '%' ? '' : unit}`
    }
    case 'trim':
      return pronounceTrim(figure, random)
    case 'integer':
      return pick(random, spell(text, random), inWords(number, random), text)
    case 'speed': {
      const three = text.length === 2 && random.chance(0.2) ? `0${text}` : text
      return `${pick(random, spell(three, random), inWords(number, random), text, tailGroup(text, random))}${random.of(['', '', ' knots', ' kt'])}`
    }
    case 'mach':
      return `${random.of(['', 'mach ', 'mach '])}${amount(withDecimals(number, figure.decimals ?? 2), random)}`
    case 'weight':
      return pronounceWeight(figure, random)
    case 'temperature': {
      const said = pick(random, spell(tidy(Math.abs(number)), random), inWords(Math.abs(number), random))
      const unit =
        figure.unit === 'C' ? random.of(['', ' degrees', ' celsius', '°']) : random.of(['', ' degrees fahrenheit'])
      return `${number < 0 ? 'minus ' : random.of(['', 'plus '])}${said}${unit}`
    }
    case 'digits': {
      const even = text.length === 4 ? twoGroups(text, random) : undefined
      const thousand = /^[1-9]000$/.test(text) ? `${SMALL[Number(text[0])]} thousand` : undefined
      const triple = /^(\d)\1\1/.test(text)
        ? `triple ${spell(text.slice(0, 1), random)} ${spell(text.slice(3), random)}`
        : undefined
      return `${random.of(['', '', 'squawk ', 'code '])}${pick(random, spell(text, random), even, thousand, triple, text).trim()}`
    }
    case 'altimeter':
      return pronounceAltimeter(figure, random)
    case 'heading': {
      const three = text.padStart(3, '0')
      const said = pick(random, spell(three, random), three, number > 99 ? tailGroup(three, random) : undefined)
      return `${random.of(['', 'heading ', 'course '])}${said}${random.of(['', ' degrees', ' magnetic'])}`
    }
    case 'runway': {
      const side = { L: 'left', R: 'right', C: random.of(['center', 'centre']) }[text.slice(2)]
      const two = text.slice(0, 2)
      const bare = two.startsWith('0') ? spell(two.slice(1), random) : inWords(Number(two), random)
      const said = pick(random, spell(two, random), two, bare)
      if (side && random.chance(0.1)) return `${two}${text.slice(2)}`
      return `${random.of(['', 'runway '])}${said}${side ? ` ${side}` : ''}`
    }
    case 'altitude': {
      const hundreds = number % 100 === 0 && number % 1000 !== 0 ? ` ${SMALL[(number % 1000) / 100]} hundred` : ''
      const isRound = number % 100 === 0 && number >= 1000
      const radio = isRound ? `${spell(String(Math.floor(number / 1000)), random)} thousand${hundreds}` : undefined
      return `${pick(random, radio, inWords(number, random), text, spell(text, random))}${random.of(['', ' feet', ' ft'])}`
    }
    case 'flightLevel': {
      const three = text.padStart(3, '0')
      const said = pick(
        random,
        spell(three, random),
        three,
        /^[1-9]00$/.test(three) ? inWords(number, random) : undefined,
      )
      return `${/^\d/.test(said) && random.chance(0.3) ? 'FL' : random.of(['', 'flight level ', 'level '])}${said}`
    }
    case 'frequency': {
      const [head = '', tail = '0'] = withDecimals(number, 1).split('.')
      const fraction = random.chance(0.3) ? tail.padEnd(3, '0') : tail
      const front = pick(random, spell(head, random), tailGroup(head, random))
      return pick(
        random,
        `${front} ${random.of(['decimal', 'point'])} ${spell(fraction, random)}`,
        `${head}.${fraction}`,
      )
    }
    case 'time': {
      if (text.length !== 4) return spell(text, random)
      return `${pick(random, spell(text, random), twoGroups(text, random), `${text.slice(0, 2)}:${text.slice(2)}`, text)}${random.of(['', ' zulu', ' UTC', ' hours'])}`
    }
    case 'identifier':
      return random.chance(0.1) && !/^[AIO]$/.test(text)
        ? text
        : Array.from(text, (c) => (/\d/.test(c) ? SMALL[Number(c)] : random.of(ALPHABET[c] as readonly string[]))).join(
            ' ',
          )
    case 'callsign':
    case 'wind':
    case 'route':
      return sayComposed(figure, random)
    case 'choice':
      return random.of(figure.options[text] ?? [])
  }
}

const ALPHABET: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  'Alpha/Alfa Bravo Charlie Delta Echo Foxtrot Golf Hotel India Juliet/Juliett Kilo Lima Mike November Oscar Papa Quebec Romeo Sierra Tango Uniform Victor Whisky/Whiskey X-ray/Xray Yankee Zulu'
    .split(' ')
    .map((words) => [words[0], words.split('/')]),
)

function pronounceTrim(figure: Extract<Figure, { kind: 'trim' }>, random: Random): string {
  const number = Number(figure.value)
  if (number === 0) return random.of(['zero', 'zero decimal zero', 'neutral', 'nought point nought'])
  const lateral = figure.axis === 'roll' || figure.axis === 'yaw'
  const towards = lateral ? (number > 0 ? 'right' : 'left') : number > 0 ? 'up' : 'down'
  const said = amount(withDecimals(Math.abs(number), figure.decimals), random)
  const nose = lateral ? '' : random.of(['', '', 'nose '])
  const units = random.of(['', '', ' units', ' degrees'])
  return pick(
    random,
    `${said}${units} ${nose}${towards}`,
    `${nose}${towards} ${said}${units}`,
    `${said}, ${nose}${towards}`,
    `${number < 0 ? 'minus' : 'plus'} ${said}`,
  )
}

function pronounceWeight(figure: Extract<Figure, { kind: 'weight' }>, random: Random): string {
  const number = Number(figure.value)
  const text = tidy(number)
  const thousands = figure.say === 'thousands' ? amount(withDecimals(number / 1000, 1), random) : undefined
  const said = pick(
    random,
    inWords(number, random),
    text,
    spell(text, random),
    thousands,
    thousands,
    number.toLocaleString('en-US'),
  )
  return `${said}${figure.unit === 'kg' ? random.of(['', ' kilos', ' kilograms', ' kg']) : random.of(['', ' pounds', ' lbs'])}`
}

function pronounceAltimeter(figure: Extract<Figure, { kind: 'altimeter' }>, random: Random): string {
  if (figure.unit === 'hPa') {
    const text = String(figure.value)
    const groups = text.length === 4 && text.startsWith('10') && text !== '1000' ? twoGroups(text, random) : undefined
    const said = pick(random, spell(text, random), text, groups, text === '1000' ? 'one thousand' : undefined)
    return `${random.of(['', '', 'QNH '])}${said}${random.of(['', '', ' hectopascals'])}`
  }
  const text = withDecimals(Number(figure.value), 2)
  const all = text.replace('.', '')
  const groups = all.length === 4 ? twoGroups(all, random) : undefined
  const [head = '', tail = ''] = text.split('.')
  const pointed = `${spell(head, random)} decimal ${spell(tail, random)}`
  return `${random.of(['', '', 'altimeter '])}${pick(random, spell(all, random), text, groups, pointed)}${random.of(['', '', ' inches'])}`
}
