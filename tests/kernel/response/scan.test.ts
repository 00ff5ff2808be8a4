/** What the words of an answer are to an item: its own, a value, a command, harmless or unknown. */

import { describe, expect, it } from 'vitest'
import type { KindSpec, Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { askedFor } from '../../../src/kernel/response/asked.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { type Atom, attemptsIn, scan } from '../../../src/kernel/response/scan.ts'

const wordsOf = (tokens: readonly { readonly text: string }[]) => tokens.map(({ text }) => text).join(' ')

/** Own words in square brackets; "~" at an end of a number that may be no part of it; nothing for what is harmless. */
function written(atom: Atom): string {
  switch (atom.type) {
    case 'run':
      return `${atom.looseHead ? '~' : ''}${wordsOf(atom.tokens)}${atom.looseTail ? '~' : ''}`
    case 'phrase':
      return `[${atom.near ? 'near ' : ''}${atom.known.phrase.text}]`
    case 'harmless':
      return `harmless(${wordsOf(atom.tokens)})`
    case 'command':
      return `command(${wordsOf(atom.tokens)})`
    case 'unknown':
      return `${atom.amount ? 'amount' : 'unknown'}(${atom.token.text})`
    default:
      return `${atom.type}(${atom.token.text})`
  }
}

function cut(response: string, specs: Specs, heard: string): string {
  const [frame] = askedFor(responseFrom(response), specs).frames
  return frame ? scan(frame, tokensOf(heard)).map(written).join(', ') : ''
}

const ALTITUDE: KindSpec = { kind: 'altitude', unit: 'ft' }
const TRIM: KindSpec = { kind: 'trim', decimals: 1 }
const CALLSIGN: KindSpec = { kind: 'callsign', telephony: ['Tidewick', 'Blue Heron'] }
const CHOICE: KindSpec = {
  kind: 'choice',
  options: { corrie: ['corrie'], melton: ['melton two'], up: ['up'], 'up high': ['up high'] },
}

describe('the words of an item', () => {
  it.each([
    ['brakes set', 'brakes are the set', '[brakes set]'],
    ['brakes set', 'brakes banana set', 'unknown(banana), [set]'],
    ['go on', 'go on', '[go on]'],
    ['go on', 'go uh on', '[go on]'],
    ['mm set', 'mm set', '[mm set]'],
    ['set', 'mm set', '[set]'],
    ['armed', 'harmed', '[near armed]'],
    ['inserted', 'insertd harmed', '[near inserted], unknown(harmed)'],
    ['(arm | arm inserted)', 'arm insertd', '[near arm inserted]'],
    ['set', 'one set', 'amount(one), [set]'],
    ['set', 'won set', 'amount(won), [set]'],
    ['set', 'dozen', 'amount(dozen)'],
    ['set', 'été', 'amount(été)'],
  ])('%s in "%s": %s', (response, heard, atoms) => {
    expect(cut(response, {}, heard)).toBe(atoms)
  })

  it('are looked for in what is alike for so many unknown words, and harmless ones are none', () => {
    const found = (before: string) => cut('inserted', {}, `${before}insertd`).split(', ').at(-1)
    expect(found('banana '.repeat(23))).toBe('[near inserted]')
    expect(found('banana '.repeat(24))).toBe('unknown(insertd)')
    expect(found('the '.repeat(40))).toBe('[near inserted]')
    expect(found('not '.repeat(40))).toBe('[near inserted]')
    expect(found('locked '.repeat(40))).toBe('[near inserted]')
  })
})

describe('a number', () => {
  it.each([
    ['uh five um thousand is set', 'five thousand, [set]'],
    ['five dozen', 'five, amount(dozen)'],
    ['climb to five thousand', 'unknown(climb), ~to five thousand'],
    ['to', ''],
    ['won', 'won'],
    ['too five', '~too five'],
    ['up to five', 'unknown(up), five'],
    ['set to five', '[set], five'],
    ['five for six', 'five for six'],
    ['five to for six', 'five to for six'],
    ['five for the six', 'five, six'],
    ['five for take off six', 'five, six'],
    ['for take off five', 'five'],
    ['five to', 'five to'],
    ['five hundred and', 'five hundred'],
    ['five hundred and set', 'five hundred, [set]'],
    ['five hundred and six', 'five hundred and six'],
    ['five thousand and six', 'five thousand and six'],
    ['five and six', 'five, six'],
    ['a six', 'six'],
    ['a hundred', 'a hundred'],
    ['a thousand', 'a thousand'],
  ])('in "%s": %s', (heard, atoms) => {
    expect(cut('<a> set', { a: ALTITUDE }, heard)).toBe(atoms)
  })

  it.each([
    ['two four zero degrees at eight knots gusting one five', 'two four zero degrees at eight knots gusting one five'],
    ['at eight', 'eight'],
    ['two four zero at the eight', 'two four zero, eight'],
    ['two four zero at wind eight', 'two four zero, [wind], eight'],
    ['two four zero at', 'two four zero'],
  ])('goes on over a word that joins only before another: "%s"', (heard, atoms) => {
    expect(cut('wind <a>', { a: { kind: 'wind' } }, heard)).toBe(atoms)
  })
})

describe('letters', () => {
  it.each([
    ['a three', 'a three'],
    ['a b', 'a b'],
    ['taxi a', '[taxi], a'],
    ['a stand', ''],
    ['i stand', ''],
    ['i alfa', 'i alfa'],
  ])('in "%s": %s', (heard, atoms) => {
    expect(cut('taxi <a>', { a: { kind: 'identifier' } }, heard)).toBe(atoms)
  })

  it.each([
    ['via alfa via bravo', '[via], alfa via bravo'],
    ['alfa and then charlie', 'alfa and then charlie'],
    ['alfa and three', 'alfa, three'],
    ['alfa via the', 'alfa, [via]'],
  ])('of a route in "%s": %s', (heard, atoms) => {
    expect(cut('taxi [via] <a>', { a: { kind: 'route' } }, heard)).toBe(atoms)
  })

  it('are two values where a label stands between them and there are two figures', () => {
    const specs: Specs = { a: { kind: 'route' }, b: { kind: 'identifier' } }
    expect(cut('via <a> <b>', specs, 'via alfa via bravo')).toBe('[via], alfa, [via], bravo')
  })
})

describe('a name', () => {
  it.each([
    ['corrie five point two up', 'corrie, five point two up'],
    ['up five point two up', 'up five point two up'],
    ['five point two melton to corrie', 'five point two, melton to, corrie'],
    ['melton', 'melton'],
    ['up high five point two up', 'up high, five point two up'],
  ])('of a choice beside a number: "%s"', (heard, atoms) => {
    expect(cut('<a> <t>', { a: CHOICE, t: TRIM }, heard)).toBe(atoms)
  })

  it.each([
    ['five thousand tidewick four two one', 'five thousand, tidewick four two one'],
    ['five thousand blue heron one two', 'five thousand, blue heron one two'],
  ])('of an operator begins a call sign: "%s"', (heard, atoms) => {
    expect(cut('<a> <c>', { a: ALTITUDE, c: CALLSIGN }, heard)).toBe(atoms)
  })
})

describe('beside the answer', () => {
  it.each([
    ['say again five', 'command(say again), five'],
    ['i say again five', 'five'],
    ['stand by five go ahead', 'command(stand by), five, command(go ahead)'],
    ['go back one five', 'command(go back one), five'],
    ['go back five', 'command(go back), five'],
    ['negative five', 'refusal(negative), five'],
    ["no five cannot isn't", "not(no), five, not(cannot), not(isn't)"],
    ['for landing five q n h', 'five'],
    ['banana five', 'unknown(banana), five'],
  ])('"%s": %s', (heard, atoms) => {
    expect(cut('<a> set', { a: ALTITUDE }, heard)).toBe(atoms)
  })
})

it('each "correction" begins another attempt, a first and a last one too', () => {
  const attempts = (text: string) => attemptsIn(tokensOf(text)).map(wordsOf)
  expect(attempts('five correction six correction')).toEqual(['five', 'six', ''])
  expect(attempts('')).toEqual([''])
})
