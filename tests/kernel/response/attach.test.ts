import { expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { askedFor } from '../../../src/kernel/response/asked.ts'
import { attachDirections } from '../../../src/kernel/response/attach.ts'
import type { Frame } from '../../../src/kernel/response/frame.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { scan } from '../../../src/kernel/response/scan.ts'

const SPECS: Specs = {
  trim: { kind: 'trim', decimals: 1 },
  wind: { kind: 'wind' },
  level: { kind: 'altitude', unit: 'ft' },
  sign: { kind: 'callsign', telephony: ['Tidewick'] },
  stand: { kind: 'identifier' },
  flap: { kind: 'choice', options: { up: ['up'], full: ['full'] } },
}

/** Numbers with what belongs to them; own words in square brackets. */
function attached(response: string, heard: string): string {
  const [frame] = askedFor(responseFrom(response), SPECS).frames as [Frame]
  return attachDirections(frame, scan(frame, tokensOf(heard)))
    .map((atom) => {
      if (atom.type === 'run') return atom.tokens.map(({ text }) => text).join(' ')
      return atom.type === 'phrase' ? `[${atom.known.phrase.text}]` : atom.type
    })
    .join(', ')
}

it.each([
  ['<trim> set', 'five point two and that is nose up', 'five point two nose up'],
  ['<trim> set', 'nose up set five point two set', '[set], nose up five point two, [set]'],
  ['<trim> set', 'five point two then six point one then up', 'five point two, six point one up'],
  ['<level>', 'five thousand and that is feet', 'five thousand feet'],
  ['<wind>', 'two four zero at eight and gusting one five', 'two four zero at eight gusting one five'],
  ['<trim> set', 'five point two set up then down', 'five point two up down, [set]'],
])('words apart from their number go with it: %s, "%s"', (response, heard, atoms) => {
  expect(attached(response, heard)).toBe(atoms)
})

it.each([
  ['<trim> set', 'set up', '[set], up'],
  ['<trim> set', 'up then down', 'up down'],
  ['<trim> set', 'units', ''],
  ['<level>', 'feet', ''],
])('without any number only a direction is something: %s, "%s"', (response, heard, atoms) => {
  expect(attached(response, heard)).toBe(atoms)
})

it.each([
  ['<wind>', 'gusting one five', 'gusting one five'],
  ['<wind>', 'variable then two knots', 'variable, two knots'],
  ['<wind>', 'two four zero at eight then calm', 'two four zero at eight, calm'],
  ['<sign> <trim>', 'five point two then tidewick', 'five point two, tidewick'],
  ['<stand> <trim>', 'five point two then alfa', 'five point two, alfa'],
  ['<flap> <trim>', 'five point two then full', 'five point two, full'],
  ['<trim>', 'five point two then neutral', 'five point two, neutral'],
])('what is a value by itself stays one: %s, "%s"', (response, heard, atoms) => {
  expect(attached(response, heard)).toBe(atoms)
})
