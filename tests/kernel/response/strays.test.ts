import { expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { type Response, responseFrom } from '../../../src/kernel/response/response.ts'
import { strayIn } from '../../../src/kernel/response/strays.ts'

const SPECS: Specs = {
  sid: { kind: 'choice', options: { tarn: ['tarn two alfa'], fell: ['fell one bravo'] } },
  level: { kind: 'altitude', unit: 'ft' },
  heading: { kind: 'heading' },
  runway: { kind: 'runway' },
  frequency: { kind: 'frequency' },
  squawk: { kind: 'digits', length: 4 },
  qnh: { kind: 'altimeter', unit: 'hPa' },
  mass: { kind: 'weight', unit: 'kg' },
  fuel: { kind: 'weight', unit: 'kg', say: 'thousands' },
  count: { kind: 'integer' },
  sign: { kind: 'callsign', telephony: ['Tidewick'] },
  point: { kind: 'identifier' },
}
const RESPONSES: Readonly<Record<string, Response>> = {
  ...Object.fromEntries(Object.keys(SPECS).map((name) => [name, responseFrom(`[${name}] <${name}>`)])),
  beacon: responseFrom('beacon on'),
  pair: responseFrom('<runway> [<qnh>]'),
}

/** From where on the words are another element's, and whose they may be. */
function stray(own: string, others: string, heard: string): string {
  const names = others.split(' ').filter((name) => name !== '')
  const responses = names.map((name) => RESPONSES[name] as Response)
  const tokens = tokensOf(heard)
  const found = strayIn(RESPONSES[own] as Response, responses, SPECS, tokens)
  if (!found) return 'none'
  const words = tokens.slice(found.at).map(({ text }) => text)
  return `${words.join(' ')}: ${names.filter((name) => found.owners.includes(RESPONSES[name] as Response)).join(' ')}`
}

it.each([
  ['level', 'runway frequency', 'nine thousand five hundred feet one two zero decimal one', 'one two zero decimal one'],
  ['sid', 'squawk', 'tarn two alfa four two seven one', 'four two seven one'],
  ['runway', 'squawk', 'runway two two left four two seven one', 'four two seven one'],
  ['runway', 'level', 'two two left five thousand', 'five thousand'],
  ['qnh', 'level', 'one zero one three hectopascals five thousand', 'five thousand'],
  ['frequency', 'level', 'one two zero decimal one and five thousand feet', 'five thousand feet'],
])('after its own value, the %s has no part in what only one of %s can be: "%s"', (own, others, heard, rest) => {
  expect(stray(own, others, heard)).toBe(`${rest}: ${others.split(' ').at(-1)}`)
})

it.each([
  ['level', 'runway frequency', 'nine thousand five hundred feet two two left', 'two two left: runway'],
  ['sid', 'runway level', 'tarn two alfa zero nine right', 'zero nine right: runway'],
  ['sid', 'runway', 'tarn two alfa zero nine', 'zero nine: runway'],
  ['squawk', 'heading runway', 'four two seven one then two two left turn', 'two two left turn: runway'],
  ['squawk', 'heading runway', 'four two seven one then two two zero turn', 'two two zero turn: heading'],
  ['sid', 'count runway', 'tarn two alfa then two two left', 'two two left: runway'],
  ['count', 'runway', 'five then two two left', 'two two left: runway'],
  ['sid', 'pair', 'tarn two alfa then two two left', 'two two left: pair'],
  ['sid', 'pair', 'tarn two alfa then one zero one three', 'one zero one three: pair'],
  ['heading', 'squawk frequency', 'zero nine zero then four two seven one', 'four two seven one: squawk'],
])('a side belongs to the number before it: the %s beside %s, "%s"', (own, others, heard, found) => {
  expect(stray(own, others, heard)).toBe(found)
})

it('a value that two of the others can have is owned by both', () => {
  expect(stray('sid', 'level mass frequency', 'tarn two alfa five thousand')).toBe('five thousand: level mass')
})

it.each([
  ['nothing else is asked for', 'level', '', 'nine thousand feet two two zero'],
  ['something is corrected', 'runway', 'level', 'two two left correction five thousand'],
  ['it can be its own value again', 'level', 'mass', 'nine thousand feet then eight thousand feet'],
  ['it came before its own value', 'level', 'frequency', 'one two zero decimal one then nine thousand feet'],
  ['its own value was not said', 'level', 'frequency', 'one two zero decimal one'],
  ['none of the others can have it', 'sid', 'squawk', 'tarn two alfa four two seven'],
  ['it has no value of its own', 'beacon', 'runway', 'beacon on two two left'],
  ['it is a letter', 'sign', 'point', 'tidewick four two one then alfa'],
])('nothing strays where %s', (_, own, others, heard) => {
  expect(stray(own, others, heard)).toBe('none')
})

it('a fraction is said of a weight in thousands and of a frequency, not of feet or whole kilos', () => {
  const heard = 'nine thousand feet two decimal five'
  expect(stray('level', 'fuel', heard)).toBe('two decimal five: fuel')
  expect(stray('level', 'mass', heard)).toBe('none')
  expect(stray('runway', 'level', 'two two left five decimal five')).toBe('none')
})
