/** How call signs, winds and routes are said: by ICAO, by the FAA, and as pilots shorten them. Written apart from the kernel's own sayings. */

import type { Figure, SpecOf } from '../../src/kernel/kinds/kind.ts'
import type { Random } from './case.ts'

type Composed = Extract<Figure, SpecOf<'callsign' | 'wind' | 'route'>>

const DIGITS = 'zero one two three four five six seven eight nine'.split(' ')
const RADIO = 'zero wun two tree fower fife six seven ait niner'.split(' ')
const LETTERS =
  'alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo sierra tango uniform victor whiskey xray yankee zulu'.split(
    ' ',
  )
const TENS = 'x ten twenty thirty forty fifty sixty seventy eighty ninety'.split(' ')

const isDigit = (character: string) => character >= '0' && character <= '9'

export function spelled(text: string, random: Random): string {
  const digits = random.of([DIGITS, DIGITS, RADIO])
  const words = Array.from(text.toUpperCase().replace(/[^A-Z0-9]/g, ''), (c) =>
    isDigit(c) ? digits[Number(c)] : LETTERS[c.charCodeAt(0) - 65],
  )
  return words.join(' ')
}

export function sayComposed({ kind, value }: Composed, random: Random): string {
  const text = String(value)
  switch (kind) {
    case 'callsign':
      return sayCallsign(text, random)
    case 'wind':
      return sayWind(text, random)
    case 'route':
      return sayRoute(text.split(' '), random)
  }
}

function sayCallsign(text: string, random: Random): string {
  const at = text.lastIndexOf(' ')
  const [name, ident] = [text.slice(0, Math.max(at, 0)).toLowerCase(), text.slice(at + 1)]
  const ways = [spelled(ident, random)]
  const [, head = '', tens = '', unit = ''] = /^(\d)([2-9])(\d)$/.exec(ident) ?? []
  if (head) ways.push(`${DIGITS[Number(head)]} ${TENS[Number(tens)]}${unit === '0' ? '' : `-${DIGITS[Number(unit)]}`}`)
  if (ident.includes('-')) ways.push(spelled(`${ident[0]}${ident.slice(-2)}`, random))
  return `${name} ${random.of(ways)}`.trim()
}

function sayWind(text: string, random: Random): string {
  if (text === 'CALM') return random.of(['calm', 'wind calm'])
  const [, direction = '', speed = '', gust] = /^(\w{3})\/(\d+)(?:G(\d+))?$/.exec(text) ?? []
  const said = (digits: string) => spelled(digits, random)
  const from = direction === 'VRB' ? 'variable' : said(direction)
  const [between, unit] = random.of([
    [direction === 'VRB' ? '' : ' degrees', ' knots'],
    [' at', ''],
    [' at', ' knots'],
  ] as const)
  const gusts = gust && ` ${random.of(['gusting', 'gusts', 'gusting to'])} ${said(gust)}${unit}`
  return `${random.of(['', 'wind '])}${from}${between} ${said(speed)}${unit}${gusts ?? ''}`
}

function sayRoute(elements: readonly string[], random: Random): string {
  const joint = () => random.of([' ', ', ', ' and ', ' then ', ', taxiway ', ' via '])
  const said = elements.map((element) => spelled(element, random))
  return random.of(['', 'via ', 'taxiway ']) + said.reduce((head, tail) => `${head}${joint()}${tail}`)
}
