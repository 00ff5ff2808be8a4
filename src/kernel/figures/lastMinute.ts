/** Last-minute changes: "two more in row 12, 300 kg off the aft hold", as a delta to the loads with the pack's limit for it. */

import { ownOf } from '../own.ts'
import type { Problem } from '../problem.ts'
import type { Calculator, Outcome, Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import type { Inputs, LastMinuteChange } from './model.ts'
import type { FigureModel, Station } from './pack.ts'
import { labelled, product, sumExplanation, type Term } from './workings.ts'

/** The weight of a change; undefined where it says neither weight nor a count that the station has a weight for. */
export function changeWeight(change: LastMinuteChange, station: Station): number | undefined {
  if (change.weight !== undefined) return change.weight
  return change.count !== undefined && station.each !== undefined ? change.count * station.each : undefined
}

interface Delta {
  readonly station: Station
  readonly weight: number
}

function deltas(model: FigureModel, inputs: Inputs): readonly Delta[] {
  return (inputs.lastMinute ?? []).flatMap((change) => {
    const station = model.stations.find(({ name }) => name === change.station)
    const weight = station && changeWeight(change, station)
    return station && weight !== undefined ? [{ station, weight }] : []
  })
}

function error(code: string, message: string): Problem {
  return { code, message, severity: 'error' }
}

/** Unknown stations, more taken off than was there, too much put on, or more than a delta may be. */
export function lastMinuteProblems(model: FigureModel, inputs: Inputs): readonly Problem[] {
  const changes = inputs.lastMinute ?? []
  if (changes.length === 0) return []
  const unit = model.basis?.units.weight ?? 'kg'
  const problems: Problem[] = []
  for (const change of changes) {
    const station = model.stations.find(({ name }) => name === change.station)
    if (!station) {
      const known = model.stations.map(({ name }) => name).join(', ')
      problems.push(
        error('load.unknown', `last-minute change: no station is called ${change.station}; there are ${known}`),
      )
    } else if (changeWeight(change, station) === undefined) {
      const why =
        change.count === undefined ? 'say weight or count' : 'the station has no standard weight, so say weight'
      problems.push(error('load.number', `last-minute change at ${station.label}: ${why}`))
    }
  }
  const byStation = new Map<Station, number>()
  for (const { station, weight } of deltas(model, inputs)) {
    byStation.set(station, (byStation.get(station) ?? 0) + weight)
  }
  let moved = 0
  for (const [station, weight] of byStation) {
    moved += Math.abs(weight)
    const after = (ownOf(inputs.loads, station.name) ?? 0) + weight
    if (after < 0) {
      const had = formatMeasured(after - weight, unit)
      problems.push(
        error(
          'load.negative',
          `last-minute change at ${station.label}: ${formatNumber(-weight)} off, there were ${had}`,
        ),
      )
    } else if (station.max !== undefined && after > station.max) {
      const most = formatMeasured(station.max, unit)
      problems.push(
        error(
          'limit.station',
          `load ${station.label} ${formatMeasured(after, unit)} is over its limit of ${most} after the last-minute change`,
        ),
      )
    }
  }
  const most = model.basis?.lastMinute?.most
  if (most !== undefined && moved > most) {
    const message = `last-minute changes of ${formatMeasured(moved, unit)} together are over ${formatMeasured(most, unit)}: a new load sheet is needed`
    problems.push(error('limit.lastMinute', message))
  }
  return problems
}

function added(work: Work, amountOf: (change: Delta) => number, tell: (change: Delta) => Term): Outcome {
  const changes = deltas(work.model, work.inputs)
  const value = changes.reduce((total, change) => total + amountOf(change), 0)
  const text = changes.length > 0 ? sumExplanation(work, changes.map(tell), value) : 'no last-minute change'
  return { value, why: [{ text, uses: [] }] }
}

const lastMinuteWeight: Calculator = {
  about: 'The weight of all last-minute changes; zero where there are none.',
  takes: {},
  needs: ['loads'],
  gives: 'weight',
  run: (work) =>
    added(
      work,
      ({ weight }) => weight,
      ({ station, weight }) => labelled(work, station.label, weight),
    ),
}

const lastMinuteMoment: Calculator = {
  about: 'The moment of all last-minute changes; zero where there are none.',
  takes: {},
  needs: ['loads'],
  gives: 'moment',
  run: (work) =>
    added(
      work,
      ({ station, weight }) => weight * station.arm,
      ({ station, weight }) => product(work, station.label, weight, station.arm),
    ),
}

const lastMinuteIndex: Calculator = {
  about: "The index of all last-minute changes by the pack's formula without its constant; zero where there are none.",
  takes: {},
  needs: ['index', 'loads'],
  gives: 'index',
  run(work) {
    const { index } = work.basis
    if (!index) throw new Error(`${work.figure.name} needs an index formula`)
    const indexOf = ({ station, weight }: Delta) => (weight * (station.arm - index.reference)) / index.divisor
    return added(work, indexOf, (change) => labelled(work, change.station.label, indexOf(change)))
  },
}

const headCount: Calculator = {
  about:
    'How many persons (or pieces) the loads at stations with a standard weight are, last-minute changes with them.',
  takes: {},
  needs: ['loads'],
  gives: 'none',
  run(work) {
    const { model, inputs, loads, derivation } = work
    const meant = model.stations.flatMap((station, index) => {
      const { name, each } = station
      if (each === undefined || (derivation.stations && !derivation.stations.includes(name))) return []
      const changed = deltas(model, inputs).filter((one) => one.station === station)
      return [{ station, each, load: changed.reduce((sum, { weight }) => sum + weight, loads[index] ?? 0) }]
    })
    const value = meant.reduce((sum, { load, each }) => sum + Math.round(load / each), 0)
    const terms = meant.map(({ station, each, load }) => labelled(work, station.label, Math.round(load / each)))
    return { value, why: [{ text: sumExplanation(work, terms, value), uses: [] }] }
  },
}

export const LAST_MINUTE = { headCount, lastMinuteWeight, lastMinuteMoment, lastMinuteIndex } as const satisfies Record<
  string,
  Calculator
>
