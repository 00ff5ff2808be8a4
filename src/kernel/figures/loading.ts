/**
 * Weight and balance: stations to weight, moment or index, centre of gravity, percent MAC, envelopes.
 * Moments are weight x arm aft of the datum; CG = total moment / total weight; % MAC = (CG - LEMAC) / MAC x 100
 * (FAA-H-8083-1B, chapters 2 and 3; values checked in tests/outside/balance.test.ts).
 */

import { type Calculator, failed, type Outcome, type Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import type { Reason } from './model.ts'
import type { Station } from './pack.ts'
import { labelOf, maybe, number, shown } from './work.ts'
import { labelled, part, product, sumExplanation, type Term } from './workings.ts'

function because(text: string, cells?: Reason['cells']): readonly Reason[] {
  return [{ text, uses: [], ...(cells && { cells }) }]
}

/** More stations than this are told by their number: nobody reads further. */
const MOST_LISTED = 40

/** What each loaded station (of those named, or of all) adds to the empty aircraft, and how that is told. */
function added(
  work: Work,
  amountOf: (load: number, station: Station) => number,
  tell: (load: number, station: Station) => Term,
): Outcome {
  const { model, derivation, loads } = work
  const { stations: names } = derivation
  const empty = maybe(work, 'empty')
  const parts = empty === undefined ? [] : [part(work, shown(work, 'empty'), empty)]
  let [value, more] = [empty ?? 0, 0]
  for (let index = 0; index < model.stations.length; index++) {
    const [station, load = 0] = [model.stations[index], loads[index]]
    if (!station || load === 0 || (names && !names.includes(station.name))) continue
    value += amountOf(load, station)
    if (parts.length > MOST_LISTED) more++
    else parts.push(tell(load, station))
  }
  const unlisted = more > 0 ? ` + ${more} more stations` : ''
  return { value, why: because(parts.length > 0 ? sumExplanation(work, parts, value, '+', unlisted) : 'nothing') }
}

const loadedWeight: Calculator = {
  about: 'The weight of the empty aircraft (left out: nothing) and of the loads at its stations.',
  takes: { empty: { unit: 'weight', optional: true } },
  needs: ['loads'],
  gives: 'weight',
  run: (work) =>
    added(
      work,
      (load) => load,
      (load, { label }) => labelled(work, label, load),
    ),
}

const loadedMoment: Calculator = {
  about: 'The moment of the empty aircraft (left out: none) and of the loads, each at the arm of its station.',
  takes: { empty: { unit: 'moment', optional: true } },
  needs: ['loads'],
  gives: 'moment',
  run: (work) =>
    added(
      work,
      (load, { arm }) => load * arm,
      (load, { label, arm }) => product(work, label, load, arm),
    ),
}

const moment: Calculator = {
  about: 'A weight times its arm.',
  takes: { weight: { unit: 'weight' }, arm: { unit: 'arm' } },
  ofOneLoad: true,
  gives: 'moment',
  run: (work) => ({
    value: number(work, 'weight') * number(work, 'arm'),
    why: because(`${shown(work, 'weight')} x ${shown(work, 'arm')}`),
  }),
}

const centreOfGravity: Calculator = {
  about: 'Moment by weight: where the centre of gravity is, aft of the datum.',
  takes: { weight: { unit: 'weight' }, moment: { unit: 'moment' } },
  ofOneLoad: true,
  gives: 'arm',
  run(work) {
    const weight = number(work, 'weight')
    if (weight <= 0) return failed('weight.none', `${work.figure.label}: there is no weight to balance`)
    return {
      value: number(work, 'moment') / weight,
      why: because(`${shown(work, 'moment')} / ${shown(work, 'weight')}`),
    }
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
      value: ((number(work, 'cg') - leadingEdge) / length) * 100,
      why: because(`(${shown(work, 'cg')} - ${formatNumber(leadingEdge)}) / ${formatNumber(length)} x 100`),
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
      value: leadingEdge + (number(work, 'cg') / 100) * length,
      why: because(`${formatNumber(leadingEdge)} + ${shown(work, 'cg')} of ${formatNumber(length)}`),
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
    const indexFor = (load: number, { arm }: Station) => (load * (arm - reference)) / divisor
    return added(work, indexFor, (load, station) => labelled(work, station.label, indexFor(load, station)))
  },
}

const index: Calculator = {
  about: "A weight at its centre of gravity as an index, by the pack's formula with its constant.",
  takes: { weight: { unit: 'weight' }, cg: { unit: 'arm' } },
  needs: ['index'],
  ofOneLoad: true,
  gives: 'index',
  run(work) {
    const { reference, divisor, constant } = indexOf(work)
    return {
      value: (number(work, 'weight') * (number(work, 'cg') - reference)) / divisor + constant,
      why: because(`${shown(work, 'weight')} x (${shown(work, 'cg')} - ${reference}) / ${divisor} + ${constant}`),
    }
  },
}

const cgOfIndex: Calculator = {
  about: 'The arm of the centre of gravity that an index stands for at a weight.',
  takes: { weight: { unit: 'weight' }, index: { unit: 'index' } },
  needs: ['index'],
  ofOneLoad: true,
  gives: 'arm',
  run(work) {
    const { reference, divisor, constant } = indexOf(work)
    const weight = number(work, 'weight')
    if (weight <= 0) return failed('weight.none', `${work.figure.label}: there is no weight to balance`)
    return {
      value: ((number(work, 'index') - constant) * divisor) / weight + reference,
      why: because(`(${shown(work, 'index')} - ${constant}) x ${divisor} / ${shown(work, 'weight')} + ${reference}`),
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
    const [weight, cg] = [number(work, 'weight'), number(work, 'cg')]
    const limits = limitsAt(envelope.limits, weight)
    if (!limits) {
      const ends = [envelope.limits[0]?.weight ?? 0, envelope.limits.at(-1)?.weight ?? 0].map((end) =>
        formatNumber(end),
      )
      const way = weight > (envelope.limits.at(-1)?.weight ?? 0) ? 'over' : 'below'
      const message = `envelope ${envelope.label}: ${shown(work, 'weight')} is outside ${ends.join(' to ')}`
      const short = `${labelOf(work, 'weight')} ${way} limit`
      return { failed: { code: 'limit.envelope', message, short, severity: 'error' } }
    }
    const value = Math.min(cg - limits.forward, limits.aft - cg)
    const side = cg < limits.forward ? 'forward' : 'aft'
    const band = `${formatNumber(limits.forward)} to ${formatMeasured(limits.aft, envelope.unit)}`
    const text = `envelope ${envelope.label} at ${shown(work, 'weight')}: ${band}; ${shown(work, 'cg')}`
    return {
      value,
      why: because(text),
      ...(value < 0 && {
        breach: {
          code: 'limit.envelope',
          severity: 'error' as const,
          short: `${labelOf(work, 'cg')} out of limits`,
          message: `${shown(work, 'cg')} is ${formatNumber(-value)} ${side} of the envelope ${envelope.label} (${band} at ${shown(work, 'weight')})`,
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
