/**
 * Weight and balance: stations to weight, moment or index, centre of gravity, percent MAC, envelopes.
 * Moments are weight x arm aft of the datum; CG = total moment / total weight; % MAC = (CG - LEMAC) / MAC x 100
 * (FAA-H-8083-1B, chapters 2 and 3; values checked in tests/outside/balance.test.ts).
 */

import { type Calculator, failed, type Work } from './calculator.ts'
import type { Reason } from './model.ts'
import type { Station } from './pack.ts'
import { showMeasured, showNumber } from './showing.ts'

/** Stations meant, each with its load; a station without one is empty. */
function loaded(work: Work): readonly { station: Station; load: number }[] {
  const names = work.derivation.stations
  const stations = names ? work.model.stations.filter(({ name }) => names.includes(name)) : work.model.stations
  return stations.map((station) => ({ station, load: work.inputs.loads[station.name] ?? 0 }))
}

function because(text: string, cells?: Reason['cells']): readonly Reason[] {
  return [{ text, uses: [], ...(cells && { cells }) }]
}

function listed(parts: readonly string[]): string {
  return parts.length > 0 ? parts.join(' + ') : 'nothing'
}

const loadedWeight: Calculator = {
  about: 'The weight of the empty aircraft (left out: nothing) and of the loads at its stations.',
  takes: { empty: { unit: 'weight', optional: true } },
  needs: ['loads'],
  gives: 'weight',
  run(work) {
    let total = work.maybe('empty') ?? 0
    const parts = work.maybe('empty') === undefined ? [] : [work.shown('empty')]
    for (const { station, load } of loaded(work)) {
      total += load
      if (load !== 0) parts.push(`${station.label} ${showNumber(load)}`)
    }
    return { value: total, why: because(listed(parts)) }
  },
}

const loadedMoment: Calculator = {
  about: 'The moment of the empty aircraft (left out: none) and of the loads, each at the arm of its station.',
  takes: { empty: { unit: 'moment', optional: true } },
  needs: ['loads'],
  gives: 'moment',
  run(work) {
    let total = work.maybe('empty') ?? 0
    const parts = work.maybe('empty') === undefined ? [] : [work.shown('empty')]
    for (const { station, load } of loaded(work)) {
      total += load * station.arm
      if (load !== 0) parts.push(`${station.label} ${showNumber(load)} x ${showNumber(station.arm)}`)
    }
    return { value: total, why: because(listed(parts)) }
  },
}

const moment: Calculator = {
  about: 'A weight times its arm.',
  takes: { weight: { unit: 'weight' }, arm: { unit: 'arm' } },
  gives: 'moment',
  run: (work) => ({
    value: work.number('weight') * work.number('arm'),
    why: because(`${work.shown('weight')} x ${work.shown('arm')}`),
  }),
}

const centreOfGravity: Calculator = {
  about: 'Moment by weight: where the centre of gravity is, aft of the datum.',
  takes: { weight: { unit: 'weight' }, moment: { unit: 'moment' } },
  gives: 'arm',
  run(work) {
    const weight = work.number('weight')
    if (weight <= 0) return failed('weight.none', `${work.figure.label}: there is no weight to balance`)
    return { value: work.number('moment') / weight, why: because(`${work.shown('moment')} / ${work.shown('weight')}`) }
  },
}

const percentMac: Calculator = {
  about: 'A centre of gravity in percent of the mean aerodynamic chord.',
  takes: { cg: { unit: 'arm' } },
  needs: ['mac'],
  gives: 'percentMac',
  run(work) {
    const { leadingEdge, length } = macOf(work)
    return {
      value: ((work.number('cg') - leadingEdge) / length) * 100,
      why: because(`(${work.shown('cg')} - ${showNumber(leadingEdge)}) / ${showNumber(length)} x 100`),
    }
  },
}

const armOfPercentMac: Calculator = {
  about: 'The arm of a centre of gravity that is given in percent MAC.',
  takes: { cg: { unit: 'percentMac' } },
  needs: ['mac'],
  gives: 'arm',
  run(work) {
    const { leadingEdge, length } = macOf(work)
    return {
      value: leadingEdge + (work.number('cg') / 100) * length,
      why: because(`${showNumber(leadingEdge)} + ${work.shown('cg')} of ${showNumber(length)}`),
    }
  },
}

function macOf(work: Work): { readonly leadingEdge: number; readonly length: number } {
  if (!work.basis.mac) throw new Error(`${work.figure.name} needs a mean aerodynamic chord`)
  return work.basis.mac
}

function indexOf(work: Work): { readonly reference: number; readonly divisor: number; readonly constant: number } {
  if (!work.basis.index) throw new Error(`${work.figure.name} needs an index formula`)
  return work.basis.index
}

const loadedIndex: Calculator = {
  about: "The index of the empty aircraft and of the loads, each by the pack's formula without its constant.",
  takes: { empty: { unit: 'index' } },
  needs: ['index', 'loads'],
  gives: 'index',
  run(work) {
    const { reference, divisor } = indexOf(work)
    let total = work.number('empty')
    const parts = [work.shown('empty')]
    for (const { station, load } of loaded(work)) {
      const index = (load * (station.arm - reference)) / divisor
      total += index
      if (load !== 0) parts.push(`${station.label} ${showNumber(index)}`)
    }
    return { value: total, why: because(listed(parts)) }
  },
}

const index: Calculator = {
  about: "A weight at its centre of gravity as an index, by the pack's formula with its constant.",
  takes: { weight: { unit: 'weight' }, cg: { unit: 'arm' } },
  needs: ['index'],
  gives: 'index',
  run(work) {
    const { reference, divisor, constant } = indexOf(work)
    return {
      value: (work.number('weight') * (work.number('cg') - reference)) / divisor + constant,
      why: because(`${work.shown('weight')} x (${work.shown('cg')} - ${reference}) / ${divisor} + ${constant}`),
    }
  },
}

const cgOfIndex: Calculator = {
  about: 'The arm of the centre of gravity that an index stands for at a weight.',
  takes: { weight: { unit: 'weight' }, index: { unit: 'index' } },
  needs: ['index'],
  gives: 'arm',
  run(work) {
    const { reference, divisor, constant } = indexOf(work)
    const weight = work.number('weight')
    if (weight <= 0) return failed('weight.none', `${work.figure.label}: there is no weight to balance`)
    return {
      value: ((work.number('index') - constant) * divisor) / weight + reference,
      why: because(`(${work.shown('index')} - ${constant}) x ${divisor} / ${work.shown('weight')} + ${reference}`),
    }
  },
}

/** Forward and aft limit at a weight, between the envelope's rows; undefined beyond them. */
export function limitsAt(
  limits: readonly { readonly weight: number; readonly forward: number; readonly aft: number }[],
  weight: number,
): { readonly forward: number; readonly aft: number } | undefined {
  for (const [number, above] of limits.entries()) {
    if (weight > above.weight) continue
    const below = limits[number - 1] ?? above
    if (weight < below.weight) return undefined
    const share = above.weight === below.weight ? 0 : (weight - below.weight) / (above.weight - below.weight)
    return {
      forward: below.forward + share * (above.forward - below.forward),
      aft: below.aft + share * (above.aft - below.aft),
    }
  }
  return undefined
}

const envelopeMargin: Calculator = {
  about: 'How far a centre of gravity is inside the nearer limit of an envelope; below zero it is outside.',
  takes: { weight: { unit: 'weight' }, cg: { unit: 'same' } },
  needs: ['envelope'],
  gives: 'same',
  run(work) {
    const envelope = work.basis.envelopes[work.derivation.envelope ?? '']
    if (!envelope) throw new Error(`${work.figure.name} needs an envelope`)
    const [weight, cg] = [work.number('weight'), work.number('cg')]
    const limits = limitsAt(envelope.limits, weight)
    if (!limits) {
      const ends = [envelope.limits[0]?.weight ?? 0, envelope.limits.at(-1)?.weight ?? 0].map((end) => showNumber(end))
      return failed(
        'limit.envelope',
        `envelope ${envelope.label}: ${work.shown('weight')} is outside ${ends.join(' to ')}`,
      )
    }
    const value = Math.min(cg - limits.forward, limits.aft - cg)
    const side = cg < limits.forward ? 'forward' : 'aft'
    const band = `${showNumber(limits.forward)} to ${showMeasured(limits.aft, envelope.unit)}`
    const text = `envelope ${envelope.label} at ${work.shown('weight')}: ${band}; ${work.shown('cg')}`
    return {
      value,
      why: because(text),
      ...(value < 0 && {
        breach: {
          code: 'limit.envelope',
          severity: 'error' as const,
          message: `${work.shown('cg')} is ${showNumber(-value)} ${side} of the envelope ${envelope.label} (${band} at ${work.shown('weight')})`,
        },
      }),
    }
  },
}

export const LOADING = {
  loadedWeight,
  loadedMoment,
  moment,
  centreOfGravity,
  percentMac,
  armOfPercentMac,
  loadedIndex,
  index,
  cgOfIndex,
  envelopeMargin,
} as const satisfies Record<string, Calculator>
