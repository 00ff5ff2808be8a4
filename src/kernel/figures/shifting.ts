/**
 * What moving, adding or removing a weight does to the centre of gravity, and how much would have to move.
 * Shift: change of CG = weight x distance / total. Added or removed: weight x (arm - old CG) / new total
 * (FAA-H-8083-1B, chapter 10; values checked in tests/outside/balance.test.ts).
 */

import { type Calculator, failed, type Outcome } from './calculator.ts'
import { number, shown } from './work.ts'

function told(value: number, text: string): Outcome {
  return { value, why: [{ text, uses: [] }] }
}

const shiftedCg: Calculator = {
  about: 'The centre of gravity after a weight was moved from one arm to another.',
  takes: {
    weight: { unit: 'weight' },
    cg: { unit: 'arm' },
    moved: { unit: 'weight' },
    from: { unit: 'arm' },
    to: { unit: 'arm' },
  },
  gives: 'arm',
  run(work) {
    const [weight, moved] = [number(work, 'weight'), number(work, 'moved')]
    if (weight <= 0 || moved > weight) {
      return failed(
        'shift.none',
        `${work.figure.label}: ${shown(work, 'moved')} cannot move in ${shown(work, 'weight')}`,
      )
    }
    const change = (moved * (number(work, 'to') - number(work, 'from'))) / weight
    const text = `${shown(work, 'cg')} + ${shown(work, 'moved')} x (${shown(work, 'to')} - ${shown(work, 'from')}) / ${shown(work, 'weight')}`
    return told(number(work, 'cg') + change, text)
  },
}

const changedCg: Calculator = {
  about: 'The centre of gravity after a weight was added at an arm, or (below zero) removed from it.',
  takes: { weight: { unit: 'weight' }, cg: { unit: 'arm' }, change: { unit: 'weight' }, arm: { unit: 'arm' } },
  gives: 'arm',
  run(work) {
    const [weight, cg, change] = [number(work, 'weight'), number(work, 'cg'), number(work, 'change')]
    const after = weight + change
    if (after <= 0) return failed('weight.none', `${work.figure.label}: nothing is left after ${shown(work, 'change')}`)
    const text = `${shown(work, 'cg')} + ${shown(work, 'change')} x (${shown(work, 'arm')} - ${shown(work, 'cg')}) / ${after}`
    return told(cg + (change * (number(work, 'arm') - cg)) / after, text)
  },
}

const weightToShift: Calculator = {
  about: 'How much must move from one arm to another to bring the centre of gravity to a target.',
  takes: {
    weight: { unit: 'weight' },
    cg: { unit: 'arm' },
    target: { unit: 'arm' },
    from: { unit: 'arm' },
    to: { unit: 'arm' },
  },
  gives: 'weight',
  run(work) {
    const weight = number(work, 'weight')
    const moved = (weight * (number(work, 'target') - number(work, 'cg'))) / (number(work, 'to') - number(work, 'from'))
    // Also catches a shift between two stations of one arm, which is no number.
    if (!(moved >= 0 && moved <= weight)) {
      const message = `${work.figure.label}: no weight moved from ${shown(work, 'from')} to ${shown(work, 'to')} brings ${shown(work, 'cg')} to ${shown(work, 'target')}`
      return failed('shift.none', message)
    }
    const text = `${shown(work, 'weight')} x (${shown(work, 'target')} - ${shown(work, 'cg')}) / (${shown(work, 'to')} - ${shown(work, 'from')})`
    return told(moved, text)
  },
}

const ballast: Calculator = {
  about: 'The weight that must be added at an arm to bring the centre of gravity to a target.',
  takes: { weight: { unit: 'weight' }, cg: { unit: 'arm' }, target: { unit: 'arm' }, arm: { unit: 'arm' } },
  gives: 'weight',
  run(work) {
    const target = number(work, 'target')
    const added = (number(work, 'weight') * (target - number(work, 'cg'))) / (number(work, 'arm') - target)
    if (!(added >= 0 && Number.isFinite(added))) {
      const message = `${work.figure.label}: no weight added at ${shown(work, 'arm')} brings ${shown(work, 'cg')} to ${shown(work, 'target')}`
      return failed('shift.none', message)
    }
    const text = `${shown(work, 'weight')} x (${shown(work, 'target')} - ${shown(work, 'cg')}) / (${shown(work, 'arm')} - ${shown(work, 'target')})`
    return told(added, text)
  },
}

export const SHIFTING = { shiftedCg, changedCg, weightToShift, ballast } as const satisfies Record<string, Calculator>
