/** Which figure a number is for: by its label, its place and its form, never by what it is. */

import { describe, expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { askedFor } from '../../../src/kernel/response/asked.ts'
import type { Frame } from '../../../src/kernel/response/frame.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { readRun } from '../../../src/kernel/response/runs.ts'
import { type RunAtom, scan } from '../../../src/kernel/response/scan.ts'
import { type RunContext, slotOfName, slotsFor, slotsReplaced, swapped } from '../../../src/kernel/response/slots.ts'

const SPECS: Specs = {
  sid: { kind: 'choice', options: { tarn: ['tarn two alfa'], fell: ['fell one bravo'] } },
  level: { kind: 'altitude', unit: 'ft' },
  heading: { kind: 'heading' },
  runway: { kind: 'runway' },
  qnh: { kind: 'altimeter', unit: 'hPa' },
  trim: { kind: 'trim', decimals: 1 },
  few: { kind: 'integer', max: 9 },
  many: { kind: 'integer', max: 99 },
  v1: { kind: 'speed' },
  vr: { kind: 'speed' },
  v2: { kind: 'speed' },
  own: { kind: 'callsign', telephony: ['Tidewick', 'Norvane'] },
  traffic: { kind: 'callsign', telephony: ['Tidewick'] },
}
const SPEEDS = 'V one <v1> rotate <vr> V two <v2>'

interface Where {
  readonly label?: string
  readonly place?: number
  /** Said already. */
  readonly said?: readonly string[]
}

/** The first number of what was heard, as it meets a response. */
function met(response: string, heard: string, { label, place = 0, said = [] }: Where = {}) {
  const [frame] = askedFor(responseFrom(response), SPECS).frames as [Frame]
  const atoms = scan(frame, tokensOf(heard))
  const at = atoms.findIndex(({ type }) => type === 'run')
  const slotOf = (name: string) => frame.path.findIndex((slot) => slot.name === name)
  const namesOf = (slots: readonly number[]) => slots.map((slot) => frame.path[slot]?.name).join(' ')
  const context: RunContext = {
    frame,
    run: atoms[at] as RunAtom,
    label: label === undefined ? undefined : slotOf(label),
    place,
    isOpen: (_, name) => !said.includes(name),
  }
  return { context, ahead: atoms.slice(at + 1), slotOf, namesOf }
}

describe('a number may be for', () => {
  const forWhich = (response: string, heard: string, where?: Where) => {
    const { context, ahead, namesOf } = met(response, heard, where)
    return namesOf(slotsFor(context, ahead))
  }

  it.each([
    ['all figures at first', {}, 'v1 vr v2'],
    ['those from its place on', { place: 1 }, 'vr v2'],
    ['those from its label on', { label: 'vr' }, 'vr v2'],
    ['those before its place where the others were said', { place: 2, said: ['v2'] }, 'v1 vr'],
    ['those of its label again', { label: 'v1', said: ['v1', 'vr'] }, 'v1 v2'],
    ['none of several where all were said', { said: ['v1', 'vr', 'v2'] }, ''],
  ] as const)('%s', (_, where, names) => {
    expect(forWhich(SPEEDS, 'one two eight', where)).toBe(names)
  })

  it.each([
    ['V two one four one', 'v1 vr'],
    ['rotate one four one', 'v1'],
    ['V one one four one', 'v1 vr v2'],
  ])('those before a label that is said after it: "%s"', (after, names) => {
    expect(forWhich(SPEEDS, `one two eight ${after}`)).toBe(names)
  })

  it('those before a unit as well, which is no label', () => {
    expect(forWhich('<v1> <v2> knots', 'one two eight and one four one knots')).toBe('v1 v2')
  })

  it('the only figure, though that was said', () => {
    expect(forWhich('<level>', 'five thousand', { said: ['level'] })).toBe('level')
  })

  it.each([
    ['<sid> <level>', {}, 'level'],
    ['<level> <sid>', { place: 1 }, 'level'],
    ['<sid> <level>', { said: ['level'] }, 'sid'],
    ['<sid> <level>', { label: 'sid' }, 'sid level'],
  ] as const)('one whose form it has, and another only where there is none: %s %o', (response, where, names) => {
    expect(forWhich(response, 'five thousand', where)).toBe(names)
  })
})

describe('a number after a correction replaces', () => {
  const replaced = (response: string, heard: string, said: readonly string[], named?: string, values = said) => {
    const { context, slotOf, namesOf } = met(response, heard)
    const filled = { said: said.map(slotOf), figures: new Map(values.map((name) => [slotOf(name), []])) }
    return namesOf(slotsReplaced(context, named === undefined ? undefined : slotOf(named), filled))
  }

  it('the last value that was said', () => {
    expect(replaced(SPEEDS, 'one two eight', ['v1', 'vr'])).toBe('vr')
  })

  it('the last that it can be a value of', () => {
    expect(replaced('<level> <runway>', 'five thousand', ['level', 'runway'])).toBe('level')
    expect(replaced('<level> <runway>', 'two two left', ['level'])).toBe('')
  })

  it('the one that is named with it, whether it can be its value or not', () => {
    expect(replaced(SPEEDS, 'one two eight', ['v1', 'vr'], 'v1')).toBe('v1')
    expect(replaced('<level> <runway>', 'five thousand', ['level', 'runway'], 'runway')).toBe('runway')
  })

  it('nothing where no value was said of it', () => {
    expect(replaced(SPEEDS, 'one two eight', ['v1'], 'v2')).toBe('')
    expect(replaced('<level> <runway>', 'two two left', ['level', 'runway'], undefined, ['level'])).toBe('')
  })
})

it.each([
  ['<level> <own>', 'tidewick four two one', 'own'],
  ['<level> <own>', 'four two one', ''],
  ['<level> <own>', 'five thousand', ''],
  ['<own> <traffic>', 'tidewick four two one', ''],
  ['<own> <traffic>', 'norvane four two one', 'own'],
])('of %s, "%s" names "%s" by an operator’s name', (response, heard, name) => {
  const { context, namesOf } = met(response, heard)
  const slot = slotOfName(context.frame, context.run)
  expect(namesOf(slot === undefined ? [] : [slot])).toBe(name)
})

describe('a number that its figure cannot have', () => {
  const takenFor = (response: string, heard: string, figure: string, where?: Where, times = 1) => {
    const { context, slotOf, namesOf } = met(response, heard, where)
    const slot = slotOf(figure)
    const spec = context.frame.specs[slot]
    const piece = { slot, tokens: context.run.tokens, readings: spec ? readRun(context.run, spec) : [] }
    const pieces = swapped(
      context,
      Array.from({ length: times }, () => piece),
    )
    return namesOf(pieces.map((each) => each.slot))
  }

  it.each([
    ['<level> <runway>', 'two two left', 'level', 'runway'],
    ['<runway> <qnh> <heading>', 'one zero one three', 'runway', 'qnh'],
    ['<v1> <trim>', 'five point two up', 'v1', 'trim'],
  ])('is for the only other one that can: %s, "%s"', (response, heard, figure, other) => {
    expect(takenFor(response, heard, figure)).toBe(other)
  })

  it('stays where it is, if its own figure can have it', () => {
    expect(takenFor('<level> <qnh>', 'one thousand', 'level')).toBe('level')
  })

  it('stays where it is, if two others can have it, or none', () => {
    expect(takenFor('<runway> <level> <qnh>', 'one thousand', 'runway')).toBe('runway')
    expect(takenFor('<v1> <vr>', 'five point two up', 'v1')).toBe('v1')
  })

  it('stays where it is, if the other one is of the same kind', () => {
    expect(takenFor('<few> <many>', 'fifty', 'few')).toBe('few')
  })

  it('stays with its label, and is not for what was said', () => {
    expect(takenFor('<level> <runway>', 'two two left', 'level', { label: 'level' })).toBe('level')
    expect(takenFor('<level> <runway>', 'two two left', 'level', { said: ['runway'] })).toBe('level')
  })

  it('stays where it is as one of several', () => {
    expect(takenFor('<level> <runway>', 'two two left', 'level', {}, 2)).toBe('level level')
  })
})
