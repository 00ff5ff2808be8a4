/**
 * `weights:` in figures.yaml: the figures of weight and balance that every author would write alike, made from stations, tanks
 * and envelopes. A figure that the author writes under the same name takes the place of the one made here.
 */

import type { Problem } from '../kernel/problem.ts'
import { dimensionOf, type Unit } from '../kernel/units.ts'
import { type FigureText, figure, type WrittenFigures } from './figuresSchema.ts'
import type { PackText } from './packSchema.ts'
import type { Source } from './source.ts'

type Raw = Readonly<Record<string, unknown>>
type Units = PackText['units']

/** Phases of a departure that have a weight with its centre of gravity. */
type Phase = 'zeroFuel' | 'takeoff' | 'landing'
const LABELS: Readonly<Record<Phase, string>> = { zeroFuel: 'zero fuel', takeoff: 'takeoff', landing: 'landing' }

/** Names and figures; none where the file asks for none, or lacks what they are made of. */
export function standardFigures(
  written: WrittenFigures,
  { units }: Pick<PackText, 'units'>,
): Record<string, FigureText> {
  const { weights } = written
  if (!weights || written.tanks.length === 0) return {}
  const { taxiFuel, landing } = weights
  const raw: Record<string, Raw> = {
    ...emptyFigures(weights, units),
    fuel: {
      ...{ label: 'fuel on board', alsoCalled: ['fuel'], kind: 'weight' },
      entered: { group: 'Fuel', plausible: { min: 0, max: capacityOf(written) } },
    },
    ...phaseFigures(written, units, 'zeroFuel', { by: 'loadedWeight', empty: 'emptyWeight' }, undefined),
    ...(taxiFuel !== undefined && {
      rampWeight: weightOf('ramp weight', { by: 'sum', of: ['zeroFuelWeight', 'fuel'] }, weights.max.ramp),
    }),
    takeoffFuel: weightOf(
      'takeoff fuel',
      taxiFuel === undefined ? { by: 'same', of: 'fuel' } : { by: 'difference', of: 'fuel', less: [taxiFuel] },
    ),
    ...phaseFigures(written, units, 'takeoff', { by: 'sum', of: ['zeroFuelWeight', 'takeoffFuel'] }, 'takeoffFuel'),
    ...(landing && {
      tripFuel: {
        ...{ label: 'trip fuel', kind: 'weight' },
        entered: { group: 'Fuel', plausible: { min: 0, max: capacityOf(written) } },
      },
      landingFuel: weightOf('landing fuel', { by: 'difference', of: 'takeoffFuel', less: ['tripFuel'] }),
      ...phaseFigures(written, units, 'landing', { by: 'sum', of: ['zeroFuelWeight', 'landingFuel'] }, 'landingFuel'),
    }),
  }
  const made = Object.entries(raw).filter(([name]) => !Object.hasOwn(written.figures, name))
  return Object.fromEntries(made.map(([name, one]) => [name, figure.parse(one)]))
}

/** What is wrong with a figure made here is told where it was asked for. */
export function placedAtWeights(source: Source, names: ReadonlySet<string>): Source {
  if (names.size === 0) return source
  const isMade = ([head, name]: readonly (string | number)[]) => head === 'figures' && names.has(String(name))
  const here = source.placeOfKey([], 'weights')
  return {
    ...source,
    place: (path) => (isMade(path) ? here : source.place(path)),
    placeInText: (path, offset) => (isMade(path) ? here : source.placeInText(path, offset)),
    placeOfKey: (path, key) => (isMade([...path, key]) ? here : source.placeOfKey(path, key)),
  }
}

/** What the figures are made of has to be there. */
export function checkWeights(source: Source, { weights, tanks, stations, envelopes }: WrittenFigures): Problem[] {
  if (!weights) return []
  const lacking = [
    ...(Object.keys(stations).length === 0 ? ['stations'] : []),
    ...(tanks.length === 0 ? ['tanks'] : []),
    ...(Object.keys(envelopes).length === 0 ? ['envelopes'] : []),
  ]
  if (lacking.length === 0) return []
  const message = `weights makes its figures from stations, tanks and envelopes; write ${lacking.join(' and ')} in this file`
  return [{ code: 'weights.lacking', message, place: source.placeOfKey([], 'weights'), severity: 'error' }]
}

const weightOf = (label: string, derived: Raw, max?: number): Raw => ({
  ...{ label, kind: 'weight', derived },
  ...(max !== undefined && { limits: { max } }),
})

function emptyFigures({ empty }: NonNullable<WrittenFigures['weights']>, units: Units): Record<string, Raw> {
  const moment = 'moment' in empty ? empty.moment : Math.round(empty.weight * empty.arm * 1e6) / 1e6
  return {
    emptyWeight: { label: 'empty weight', kind: 'weight', constant: empty.weight },
    emptyMoment: { label: 'empty moment', ...momentIn(units), constant: moment },
  }
}

const momentIn = ({ weight, arm }: Units): Raw => ({ kind: 'decimal', decimals: 1, unit: `${weight} ${arm}` })

function phaseFigures(
  written: WrittenFigures,
  units: Units,
  phase: Phase,
  weight: Raw,
  fuel: string | undefined,
): Record<string, Raw> {
  const { weights, mac, index } = written
  const label = LABELS[phase]
  const name = (what: string) => `${phase}${what}`
  const cg = { kind: 'decimal', decimals: units.arm === 'm' ? 3 : 1 }
  const derived = { by: 'loadedMoment', empty: 'emptyMoment' }
  const envelope = envelopeFor(written, phase)
  return {
    [name('Weight')]: weightOf(`${label} weight`, weight, weights?.max[phase]),
    ...(fuel !== undefined && {
      [name('FuelMoment')]: { label: `${label} fuel moment`, ...momentIn(units), derived: { by: 'fuelMoment', fuel } },
    }),
    [name('Moment')]: {
      ...{ label: `${label} moment`, ...momentIn(units) },
      derived: fuel === undefined ? derived : { by: 'sum', of: ['zeroFuelMoment', name('FuelMoment')] },
    },
    [name('Cg')]: {
      ...{ label: `${label} CG`, ...cg, unit: units.arm },
      derived: { by: 'centreOfGravity', weight: name('Weight'), moment: name('Moment') },
    },
    ...(mac && {
      [name('Mac')]: {
        ...{ label: `${label} CG in percent`, kind: 'decimal', decimals: 1, unit: 'percentMac' },
        derived: { by: 'percentMac', cg: name('Cg') },
      },
    }),
    ...(index && {
      [name('Index')]: {
        ...{ label: `${label} index`, kind: 'decimal', decimals: 1, unit: 'index' },
        derived: { by: 'index', weight: name('Weight'), cg: name('Cg') },
      },
    }),
    ...(envelope && {
      [name('Margin')]: {
        ...{ label: `${label} CG margin`, kind: 'decimal', decimals: cg.decimals, unit: envelope.unit ?? units.arm },
        derived: {
          ...{ by: 'envelopeMargin', envelope: envelope.name, weight: name('Weight') },
          cg: name(cgIn(envelope.unit ?? units.arm)),
        },
      },
    }),
  }
}

/** The centre of gravity in the unit that the envelope is drawn in. */
function cgIn(unit: string): 'Cg' | 'Mac' | 'Index' {
  const dimension = dimensionOf(unit as Unit)
  if (dimension === 'mac') return 'Mac'
  return dimension === 'index' ? 'Index' : 'Cg'
}

/** That of its name; with one envelope for all, that one, but for zero fuel. */
function envelopeFor({ envelopes }: WrittenFigures, phase: Phase) {
  const all = Object.entries(envelopes).map(([name, one]) => ({ name, ...one }))
  const [only, ...more] = all
  return all.find(({ name }) => name === phase) ?? (more.length === 0 && phase !== 'zeroFuel' ? only : undefined)
}

function capacityOf({ tanks }: WrittenFigures): number {
  return tanks.flatMap((group) => Object.values(group)).reduce((sum, { capacity }) => sum + capacity, 0)
}
