/** The fields of a revision: what each one takes, its unit and plausible range, and what was typed so far. */

import { band, loadProblems, valueProblems } from '../../kernel/figures/entered.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import type { FigureDeclaration } from '../../kernel/figures/pack.ts'
import { type Figure, type KindSpec, kindOf, type Value } from '../../kernel/kinds/kind.ts'
import { isNumeric } from '../../kernel/kinds/table.ts'
import { tidied } from '../../kernel/kinds/written.ts'
import { transcriptOf } from '../../kernel/numbers/tokens.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import type { Problem } from '../../kernel/problem.ts'
import { judge } from '../../kernel/response/judge.ts'
import { responseFrom } from '../../kernel/response/response.ts'
import { convert, type Unit } from '../../kernel/units.ts'
import type { Hidden } from './hiddenFigures.ts'

export interface FigureField {
  readonly name: string
  readonly label: string
  readonly unit: string
  readonly required: boolean
  /** "normally 1,500 to 6,780 kg", or how such a value is written; empty where there is nothing to say. */
  readonly range: string
  /** Positions, for a choice. */
  readonly options?: readonly string[]
  readonly isText: boolean
  /** As typed; empty while the revision in force stands and its value is hidden. */
  readonly entered: string
  /** The value in force is hidden: an empty field leaves it as it is. */
  readonly keeps: boolean
  readonly problems: readonly Problem[]
}

export interface FieldGroup {
  readonly title: string
  readonly fields: readonly FigureField[]
}

export interface LoadField {
  readonly name: string
  readonly label: string
  readonly unit: string
  readonly max?: number
  /** Standard weight of one, where pieces can be counted. */
  readonly each?: number
  readonly entered: string
  /** Why it is no load. */
  readonly problems: readonly Problem[]
}

/** What was typed as a value; text that is no number stays text, so that computing can say what it should be. */
export function enteredValue(spec: KindSpec, text: string, measure?: Unit): Value | undefined {
  const trimmed = text.trim()
  if (trimmed === '') return undefined
  if (measure === 'degW') return enteredVariation(trimmed) ?? trimmed
  const number = isNumeric(spec) ? (enteredNumber(trimmed) ?? numberAsSaid(spec, trimmed)) : undefined
  return number ?? tidied(spec, trimmed)
}

/** "2.5 up", "24,360 kg", as an answer would be read; undefined with another unit, or beside anything else. */
function numberAsSaid(spec: KindSpec, text: string): number | undefined {
  const figures = { value: { ...spec, value: 0 } as Figure }
  const { verdict, because, parts } = judge({ response: VALUE, figures, heard: transcriptOf(text), exact: true })
  const [part, ...more] = parts
  const isWhole = part?.heard?.replaceAll(' ', '') === text.toLowerCase().replace(/[\s,°]/g, '')
  const isRead = more.length === 0 && isWhole && (verdict === 'correct' || because === 'value')
  return isRead && typeof part.read === 'number' ? part.read : undefined
}
const VALUE = responseFrom('<value>')

/** "4 W", "4E", "4 east": west is above zero. A number alone could be either, unless it is zero. */
function enteredVariation(text: string): number | undefined {
  const [, digits = '', side = ''] = /^(\d{1,3}(?:\.\d+)?) ?°? ?(w|west|e|east|)$/i.exec(text) ?? []
  const number = Number(digits)
  if (digits === '' || (side === '' && number !== 0)) return undefined
  return convert(number, /^e/i.test(side) ? 'degE' : 'degW', 'degW') + 0
}

/** "1,200" and "1200.5" are numbers; undefined for anything else. */
export function enteredNumber(text: string): number | undefined {
  const plain = text.trim().replace(/,(?=\d{3}(\D|$))/g, '')
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined
}

export function fieldGroups(
  pack: Pack,
  draft: Inputs,
  inForce: Inputs | undefined,
  hidden: ReadonlyMap<string, Hidden>,
  hasStations: boolean,
): FieldGroup[] {
  const groups = new Map<string, FigureField[]>()
  const read = new Set(readBackOf(pack))
  for (const declaration of Object.values(pack.figures.declarations)) {
    if (!declaration.input) continue
    // One has to hear it; where no station speaks, only what a list asks for is entered.
    if (declaration.given && (hasStations || !read.has(declaration.name))) continue
    const title = declaration.group ?? 'Figures'
    groups.set(title, [...(groups.get(title) ?? []), field(declaration, draft, inForce, hidden)])
  }
  return [...groups].map(([title, fields]) => ({ title, fields }))
}

function field(
  declaration: FigureDeclaration,
  draft: Inputs,
  inForce: Inputs | undefined,
  hidden: ReadonlyMap<string, Hidden>,
): FigureField {
  const { name, label, spec, unit, plausible, measure, required, given } = declaration
  const value = draft.values[name]
  const before = inForce?.values[name]
  const keeps = hidden.get(name) === 'own' && before !== undefined
  const isKept = keeps && value === before
  const { options } = kindOf(spec)
  return {
    name,
    label,
    unit: measure === 'degW' ? '°' : (unit ?? ''),
    required: required !== false || given !== undefined,
    range:
      measure === 'degW' ? 'west or east: 4 W' : plausible ? `normally ${band(plausible, measure)}` : howWritten(spec),
    ...(options && { options: Object.keys(options(spec)) }),
    isText: !isNumeric(spec) || measure === 'degW',
    entered: value === undefined || isKept ? '' : asTyped(value, measure),
    keeps,
    problems: value === undefined || isKept ? [] : valueProblems(declaration, value),
  }
}

const asTyped = (value: Value, measure: Unit | undefined): string =>
  measure === 'degW' && typeof value === 'number' ? formatMeasured(value, measure).replace('°', '') : String(value)

/** For values of several pieces; a single one shows by its label. */
function howWritten(spec: KindSpec): string {
  const kind = kindOf(spec)
  return kind.values === 'text' && kind.match ? kind.written(spec) : ''
}

export function loadFields(pack: Pack, draft: Inputs): LoadField[] {
  const unit = pack.figures.basis?.units.weight ?? 'kg'
  return pack.figures.stations.map((station) => {
    const { name, label, max, each } = station
    const load = draft.loads[name]
    return {
      ...{ name, label, unit },
      ...(max !== undefined && { max }),
      ...(each !== undefined && { each }),
      entered: load === undefined ? '' : String(load),
      problems:
        load === undefined ? [] : loadProblems(station, load, unit).filter(({ code }) => code.startsWith('load.')),
    }
  })
}
