/** A revision as a person hands it in (YAML, JSON or a CSV load sheet) -> inputs, or problems with their places. */

import { loadProblems, valueProblems } from '../kernel/figures/entered.ts'
import type { Inputs, LastMinuteChange } from '../kernel/figures/model.ts'
import type { FigureDeclaration } from '../kernel/figures/pack.ts'
import type { Value } from '../kernel/kinds/kind.ts'
import { isError, type Problem } from '../kernel/problem.ts'
import type { Pack } from '../kernel/run/checklist.ts'
import { convert, fits, isUnit, type Unit } from '../kernel/units.ts'
import { csvSource } from './csv.ts'
import { didYouMean } from './nearest.ts'
import { type InputsText, inputsFile } from './schema.ts'
import { shaped } from './shape.ts'
import { type Path, parseSource, type Source } from './source.ts'

/** Units as people write them. */
const WRITTEN: Readonly<Record<string, Unit>> = {
  gal: 'usgal',
  inches: 'in',
  lbs: 'lb',
  '°C': 'C',
  '°F': 'F',
  litres: 'l',
  '%': 'percentMac',
}

/**
 * Inputs come back where nothing is an error; advice (an unusual value) comes beside them. Values are numbers in the
 * pack's unit, or text with a unit ("5100 lb"), which is converted where the dimension fits.
 */
export function readInputs(
  text: string,
  fileName: string,
  pack: Pack,
): { readonly inputs?: Inputs; readonly problems: Problem[] } {
  const source = fileName.endsWith('.csv') ? csvSource(fileName, text, pack) : parseSource(fileName, text)
  const { value, problems } = shaped(source, inputsFile)
  if (!value) return { problems }
  const reading = reader(source, pack)
  const inputs = reading.inputs(value)
  return reading.problems.some(isError) ? { problems: reading.problems } : { inputs, problems: reading.problems }
}

function reader(source: Source, pack: Pack) {
  const problems: Problem[] = []
  const { declarations, stations, basis } = pack.figures
  const weight = basis?.units.weight ?? 'kg'
  const stationNames = stations.map(({ name }) => name)

  const report = (code: string, path: Path, message: string): void => {
    problems.push({ code, message, place: source.place(path), severity: 'error' })
  }
  const at = (path: Path, found: readonly Problem[]): void => {
    problems.push(...found.map((problem) => ({ ...problem, place: source.place(path) })))
  }

  /** A number in the wanted unit; undefined (and reported) where it cannot be one. */
  const measured = (given: number | string, unit: Unit | undefined, path: Path): number | undefined => {
    if (typeof given === 'number') return given
    const [, digits = '', word = ''] = /^\s*(-?[\d.,]+)\s*(\S.*?)?\s*$/.exec(given) ?? []
    const number = digits === '' ? Number.NaN : Number(digits.replace(/,(?=\d{3}\b)/g, ''))
    if (Number.isNaN(number)) {
      report('input.number', path, `"${given}" should be a number${unit ? ` in ${unit}` : ''}`)
      return undefined
    }
    if (word === '') return number
    const from = WRITTEN[word] ?? word
    if (!isUnit(from)) {
      report('unit.unknown', path, `"${word}" is no unit that is known here${unit ? `; write ${unit}` : ''}`)
      return undefined
    }
    if (!unit || !fits(from, unit)) {
      report(
        'unit.misfit',
        path,
        `"${given}" is in ${from}${unit ? `; this is given in ${unit}` : '; this has no unit'}`,
      )
      return undefined
    }
    return convert(number, from, unit)
  }

  const figureValue = (name: string, given: Value, path: Path): Value | undefined => {
    const declaration = declarations[name]
    if (!declaration) {
      report('figure.unknown', path, `no figure is called "${name}"${didYouMean(name, Object.keys(declarations))}`)
      return undefined
    }
    const value = declaration.measure ? measured(given, declaration.measure, path) : textValue(declaration, given)
    if (value === undefined) return undefined
    const found = valueProblems(declaration, value)
    at(path, found)
    return found.some(isError) ? undefined : value
  }

  const values = (given: InputsText['values']): Record<string, Value> => {
    const entries = Object.entries(given).flatMap(([name, one]) => {
      const path: Path = ['values', name]
      if (declarations[name] && !declarations[name].input) {
        report(
          'figure.notEntered',
          path,
          `${name} is ${declarations[name].derived ? 'computed' : 'fixed in the pack'}, not entered; a source's value goes under stated`,
        )
        return []
      }
      const value = figureValue(name, one, path)
      return value === undefined ? [] : [[name, value]]
    })
    return Object.fromEntries(entries) as Record<string, Value>
  }

  const station = (name: string, path: Path) => {
    const found = stations.find((one) => one.name === name)
    if (!found) report('load.unknown', path, `no station is called "${name}"${didYouMean(name, stationNames)}`)
    return found
  }

  const loads = (given: InputsText['loads']): Record<string, number> => {
    const entries = Object.entries(given).flatMap(([name, one]) => {
      const path: Path = ['loads', name]
      const found = station(name, path)
      const load = measured(one, weight, path)
      if (!found || load === undefined) return []
      // An overloaded station is a broken limit, which the figures report; here only what cannot be a load.
      at(
        path,
        loadProblems(found, load, weight).filter(({ code }) => code !== 'limit.station'),
      )
      return [[name, load]]
    })
    return Object.fromEntries(entries) as Record<string, number>
  }

  const situation = (given: Readonly<Record<string, string>>): void => {
    for (const [name, value] of Object.entries(given)) {
      const path: Path = ['situation', name]
      const found = pack.situations.find((one) => one.name === name)
      const known = found?.options.map((option) => option.value) ?? []
      if (!found) {
        const names = pack.situations.map((one) => one.name)
        report('situation.unknown', path, `no situation is called "${name}"${didYouMean(name, names)}`)
      } else if (!known.includes(value)) {
        report('situation.value', path, `situation ${name} has no "${value}"${didYouMean(value, known)}`)
      }
    }
  }

  const stated = (given: NonNullable<InputsText['stated']>): NonNullable<Inputs['stated']> => {
    const sources = Object.entries(given).map(([name, figures]) => {
      const entries = Object.entries(figures).flatMap(([figure, one]) => {
        const path: Path = ['stated', name, figure]
        const allowed = declarations[figure]?.stated?.sources
        if (declarations[figure] && !allowed?.includes(name)) {
          report('source.unknown', path, `${figure} is not compared with "${name}"${didYouMean(name, allowed ?? [])}`)
        }
        const value = figureValue(figure, one, path)
        return value === undefined ? [] : [[figure, value]]
      })
      return [name, Object.fromEntries(entries)]
    })
    return Object.fromEntries(sources) as NonNullable<Inputs['stated']>
  }

  const settled = (given: NonNullable<InputsText['settled']>): void => {
    for (const [figure, { use }] of Object.entries(given)) {
      const known = ['computed', ...(declarations[figure]?.stated?.sources ?? [])]
      if (!declarations[figure]) {
        report(
          'figure.unknown',
          ['settled', figure],
          `no figure is called "${figure}"${didYouMean(figure, Object.keys(declarations))}`,
        )
      } else if (!known.includes(use)) {
        report(
          'source.unknown',
          ['settled', figure, 'use'],
          `${figure} has no source "${use}"${didYouMean(use, known)}`,
        )
      }
    }
  }

  const lastMinute = (given: NonNullable<InputsText['lastMinute']>): LastMinuteChange[] =>
    given.flatMap((change, index) => {
      const path: Path = ['lastMinute', index]
      const found = station(change.station, [...path, 'station'])
      if (found && change.weight === undefined && (change.count === undefined || found.each === undefined)) {
        report(
          'load.number',
          path,
          `say the weight${found.each === undefined ? '' : ' or the count'} of the change at ${found.label}`,
        )
      }
      const changed = change.weight === undefined ? undefined : measured(change.weight, weight, [...path, 'weight'])
      const { count } = change
      return [
        {
          station: change.station,
          ...(changed !== undefined && { weight: changed }),
          ...(count !== undefined && { count }),
        },
      ]
    })

  return {
    problems,
    inputs(text: InputsText): Inputs {
      if (text.situation) situation(text.situation)
      if (text.settled) settled(text.settled)
      return {
        status: text.status,
        ...(text.label !== undefined && { label: text.label }),
        values: values(text.values),
        loads: loads(text.loads),
        ...(text.situation && { situation: text.situation }),
        ...(text.stated && { stated: stated(text.stated) }),
        ...(text.settled && { settled: text.settled }),
        ...(text.lastMinute && { lastMinute: lastMinute(text.lastMinute) }),
      }
    },
  }
}

/** A flap written 14 is the position "14"; a code written 0421 has lost its zero and is reported as too short. */
function textValue({ spec }: FigureDeclaration, given: Value): Value {
  return spec.kind === 'choice' || typeof given === 'number' ? String(given) : given
}
