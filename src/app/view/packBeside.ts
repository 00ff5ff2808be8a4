/**
 * What stands beside the text of a pack while it is written: the list as the pilot sees it, what its item takes and
 * refuses, and what becomes of an answer that is tried. All of it is judged by the same rules as in a run.
 */

import { compute, figureOf } from '../../kernel/figures/compute.ts'
import { band } from '../../kernel/figures/entered.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import type { FigureSet, Inputs, Reason } from '../../kernel/figures/model.ts'
import { neighboursOf } from '../../kernel/figures/neighbours.ts'
import { spokenNames } from '../../kernel/interpret/command.ts'
import type { Figure, Figures, Judged, Value } from '../../kernel/kinds/kind.ts'
import { sayValue } from '../../kernel/kinds/table.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Item, Note, Pack } from '../../kernel/pack/checklist.ts'
import { judgedFor, listsOf, readingOrder } from '../../kernel/pack/place.ts'
import { limitsShown } from '../../kernel/papers/print.ts'
import { explained } from '../../kernel/response/explain.ts'
import { hypothesesOf } from '../../kernel/response/hypotheses.ts'
import { judge } from '../../kernel/response/judge.ts'
import type { Judgement } from '../../kernel/response/model.ts'
import { outlineOfAll } from '../../kernel/response/sentence.ts'
import { type PackTexts, sheetsOf } from '../../packs/files/parts.ts'
import { readInputs } from '../../packs/inputs.ts'
import { enteredValue } from '../figures/fields.ts'
import { type Refused, refusable, waysOf } from './answersTried.ts'
import { conditionWords } from './conditionWords.ts'

export { atCursor } from '../../packs/hints/atCursor.ts'

/** Typed in place of values that no example sheet gives: figure -> text. */
export type TypedValues = Readonly<Record<string, string>>

export interface BesideEntry {
  readonly id: string
  readonly type: 'item' | 'line' | Note['type']
  readonly challenge: string
  /** "(fuel on board) kilograms". */
  readonly response: string
  /** Empty where it always applies. */
  readonly when: string
  /** Comes before what it warns of; empty where there is none. */
  readonly caution: string
}

export interface BesideList {
  readonly name: string
  readonly caution: string
  readonly entries: readonly BesideEntry[]
}

/** One response of an item. */
export interface BesideCase {
  /** In which situation; empty where there is one for all. */
  readonly when: string
  readonly figures: readonly BesideFigure[]
  /** Right answers in words; none while a figure has no value. */
  readonly right: readonly string[]
  readonly refused: readonly Refused[]
}

export interface BesideFigure {
  readonly name: string
  readonly label: string
  /** Undefined where neither an example sheet nor what was typed gives one. */
  readonly value: string | undefined
  readonly isTyped: boolean
}

export interface Tried {
  readonly judgement: Judgement
  /** What each part was taken from and read as. */
  readonly parts: readonly { readonly name: string; readonly heard: string; readonly read: string }[]
  readonly why: string
}

/** Figures of the example sheet that is final, or of the first. */
export interface Example {
  /** "inputs/final.yaml"; empty where no sheet can be read. */
  readonly sheet: string
  readonly set: FigureSet
}

export function exampleOf(pack: Pack, files: PackTexts): Example {
  const sheets = Object.entries(sheetsOf(files)).flatMap(([name, text]) => {
    const { inputs } = readInputs(text, name, pack)
    return inputs ? [{ sheet: `inputs/${name}.yaml`, inputs }] : []
  })
  const found = sheets.find(({ inputs }) => inputs.status === 'final') ?? sheets[0]
  return { sheet: found?.sheet ?? '', set: compute(pack.figures, found?.inputs ?? NOTHING_ENTERED) }
}

const NOTHING_ENTERED: Inputs = { status: 'preliminary', values: {}, loads: {} }

export function listBeside(pack: Pack, id: string | undefined): BesideList | undefined {
  const list = listsOf(pack).find((one) => one.id === id)
  return (
    list && {
      name: list.name,
      caution: list.caution ?? '',
      entries: readingOrder(list).map((entry, index) => ({
        id: 'id' in entry ? entry.id : `note ${index}`,
        type: entry.type,
        challenge: entry.type === 'item' ? entry.challenge : entry.type === 'line' ? entry.label : entry.text,
        response: entry.type === 'item' ? answerBeside(pack, entry) : '',
        when: conditionWords(pack, entry.when),
        caution: ('caution' in entry && entry.caution) || '',
      })),
    }
  )
}

/** Of a question the situations that it tells apart. */
function answerBeside(pack: Pack, { responses, optional, decides }: Item): string {
  if (decides) {
    const options = pack.situations.find(({ name }) => name === decides.situation)?.options ?? []
    return options.map(({ label }) => label).join(', or ')
  }
  const said = responses.map((one) => outline(pack, one.response)).join(', or ')
  return optional ? `${said}, or not applicable` : said
}

export function itemBeside(pack: Pack, list: string | undefined, item: string | undefined): Item | undefined {
  const id = `${list}.${item}`
  // Of one that is asked several times, the first.
  return itemsOf(pack).find((one) => one.id === id || one.id.startsWith(`${id}.`))
}

export interface FigureShown {
  readonly label: string
  /** With its unit; undefined where the example gives it no value. */
  readonly shown: string | undefined
  readonly said: string
  readonly why: readonly Reason[]
  /** Challenges of the items that say it. */
  readonly items: readonly string[]
}

export function figureBeside(pack: Pack, { set }: Example, name: string): FigureShown | undefined {
  const declaration = ownOf(pack.figures.declarations, name)
  if (!declaration) return undefined
  const computed = ownOf(set.figures, name)
  const figure = figureOf(set, name)
  const items = itemsOf(pack).filter(({ responses }) =>
    responses.some(({ response }) => response.figures.includes(name)),
  )
  return {
    label: declaration.label,
    shown: computed?.value === undefined ? undefined : formatMeasured(computed.value, computed.measure),
    said: figure ? sayValue(figure, 'plain') : '',
    why: computed?.why ?? [],
    items: items.map(({ challenge }) => challenge),
  }
}

export function casesBeside(pack: Pack, item: Item, { set }: Example, typed: TypedValues): BesideCase[] {
  return item.responses.map(({ when, response }) => {
    const { judged, figures } = figuresFor(pack, response.figures, set, typed)
    const isWhole = response.figures.every((name) => ownOf(figures, name) !== undefined)
    const isRight = (said: string) => judgeTried(pack, item, response, judged, said).verdict === 'correct'
    const candidates = isWhole
      ? refusable(item, response, figures, (name) => neighboursOf(pack.figures, set, name))
      : []
    return {
      when: conditionWords(pack, when),
      figures: response.figures.map((name) => ({
        name,
        label: labelOf(pack, name),
        value: ownOf(figures, name) && sayValue(figures[name] as Figures[string], 'plain'),
        isTyped: ownOf(set.figures, name)?.value === undefined,
      })),
      right: isWhole ? waysOf(response, figures).filter(isRight) : [],
      refused: candidates.filter(({ said }) => !isRight(said)).slice(0, MOST_REFUSED),
    }
  })
}

const MOST_REFUSED = 8

/** Undefined while a figure of the response has no value. */
export function tryAnswer(
  pack: Pack,
  item: Item,
  place: number,
  { set }: Example,
  typed: TypedValues,
  said: string,
): Tried | undefined {
  const response = item.responses[place]?.response
  if (!response) return undefined
  const { judged } = figuresFor(pack, response.figures, set, typed)
  if (response.figures.some((name) => ownOf(judged, name) === undefined)) return undefined
  const judgement = judgeTried(pack, item, response, judged, said)
  return {
    judgement,
    parts: judgement.parts.flatMap(({ name, heard, read }) =>
      heard === undefined ? [] : [{ name: labelOf(pack, name), heard, read: read === undefined ? '' : String(read) }],
    ),
    why: explained(judgement, hypothesesOf({ text: said }).heard),
  }
}

function judgeTried(
  pack: Pack,
  { challenge, states }: Item,
  response: Item['responses'][number]['response'],
  figures: Judged,
  said: string,
): Judgement {
  const heard = hypothesesOf({ text: said })
  return judge({ ...heard, ...spokenNames(pack), challenge, response, figures, ...(states && { states }) })
}

/**
 * What an answer is judged by, and the same figures as one right answer has them: a reading that has limits has one of
 * them, unless another was typed.
 */
function figuresFor(
  pack: Pack,
  names: readonly string[],
  set: FigureSet,
  typed: TypedValues,
): { readonly judged: Judged; readonly figures: Figures } {
  const values: Record<string, Value> = Object.fromEntries(
    Object.values(set.figures).flatMap(({ name, value }) => (value === undefined ? [] : [[name, value]])),
  )
  for (const name of names) {
    const declaration = ownOf(pack.figures.declarations, name)
    const text = ownOf(typed, name)?.trim() ?? ''
    const value = declaration && text !== '' ? enteredValue(declaration.spec, text, declaration.measure) : undefined
    if (value !== undefined) values[name] ??= value
  }
  const judged = judgedFor(pack, values, names)
  const figures = Object.entries(judged).flatMap(([name, one]): [string, Figure][] => {
    if (!('read' in one)) return [[name, one]]
    const value = values[name] ?? one.read.min ?? one.read.max
    return value === undefined ? [] : [[name, { ...one, value } as Figure]]
  })
  return { judged, figures: Object.fromEntries(figures) }
}

const itemsOf = (pack: Pack): Item[] =>
  listsOf(pack)
    .flatMap(({ entries }) => entries)
    .filter((one) => one.type === 'item')

/** "(bus voltage, 27.5 to 29 V)". */
const outline = (pack: Pack, response: Item['responses'][number]['response']) =>
  outlineOfAll(response, (name) => {
    const { spec, constant, accept: { min, max } = {} } = ownOf(pack.figures.declarations, name) ?? {}
    // What never changes stands on a card as it is, or between which ends it is right.
    if (min !== undefined || max !== undefined)
      return band({ ...(min !== undefined && { min }), ...(max !== undefined && { max }) }, undefined)
    if (spec && constant !== undefined) return sayValue({ ...spec, value: constant } as Figure, 'plain')
    const limits = limitsShown(ownOf(pack.figures.declarations, name) ?? {})
    return `(${[labelOf(pack, name), limits].filter((part) => part !== '').join(', ')})`
  })

function labelOf(pack: Pack, name: string): string {
  return ownOf(pack.figures.declarations, name)?.label ?? name
}
