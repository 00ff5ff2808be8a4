/**
 * A pack cut down to what is due: exchanges of single turns that the station begins, one list of single items, flows. It is
 * written as texts, as every pack is, so the log of a drill can be replayed and debriefed as any other.
 */

import { parse, stringify } from 'yaml'

/** What is drilled, by ids of the whole pack. */
export interface Drilled {
  /** "loadFigures.trim", in the order in which they are asked. */
  readonly items: readonly string[]
  /** "clearance.departure". */
  readonly turns: readonly string[]
  readonly flows: readonly string[]
}

export interface DrillTexts {
  readonly texts: Readonly<Record<string, string>>
  /** Item of the drill -> the same item in the whole pack. */
  readonly items: Readonly<Record<string, string>>
  /** Figures that a station gives in the whole pack and nobody gives here: they have to be entered. */
  readonly entered: readonly string[]
}

/** The one list of a drill; no pack's own, since it is alone. */
export const DRILL_LIST = 'drill'

type Raw = Readonly<Record<string, unknown>>
interface RawProcedures {
  readonly phases: readonly { readonly activities: readonly Raw[] }[]
}

/** Texts of a pack that is right -> texts of its drill. Things that the pack does not have are left out. */
export function drillTexts(texts: Readonly<Record<string, string>>, drilled: Drilled): DrillTexts {
  const { phases } = parse(texts['procedures.yaml'] ?? '') as RawProcedures
  const activities = phases.flatMap((phase) => phase.activities)
  const found = drilled.items.flatMap((id) => itemIn(activities, id) ?? [])
  const entries = found.map(({ raw }, index) => ({ ...without(raw, 'interlocks'), item: `i${index + 1}` }))
  const list = { list: DRILL_LIST, name: 'five minutes today', alsoCalled: ['drill'], entries }
  const exchanges = activities.flatMap((activity) => exchangeOf(activity, drilled.turns))
  const flows = activities
    .filter(({ flow }) => drilled.flows.includes(String(flow)))
    .map((flow) => ({
      ...without(flow, 'when', 'silent'),
      steps: (flow.steps as readonly Raw[]).map((step) => without(step, 'interlocks')),
    }))
  const procedures = {
    phases: [
      {
        phase: DRILL_LIST,
        name: 'Five minutes today',
        activities: [...exchanges, ...(entries.length > 0 ? [list] : []), ...flows],
      },
    ],
  }
  const given = new Set(exchanges.flatMap(({ turns }) => turns.flatMap((turn) => (turn.sets as string[]) ?? [])))
  const figures = enteredWhereNotGiven(texts['figures.yaml'] ?? '', given)
  const papers = texts['papers.yaml'] === undefined ? {} : { 'papers.yaml': withoutLists(texts['papers.yaml']) }
  return {
    texts: { ...texts, 'procedures.yaml': written(procedures), 'figures.yaml': figures.text, ...papers },
    items: Object.fromEntries(found.map(({ id }, index) => [`${DRILL_LIST}.i${index + 1}`, id])),
    entered: figures.entered,
  }
}

const without = (raw: Raw, ...names: readonly string[]): Raw =>
  Object.fromEntries(Object.entries(raw).filter(([name]) => !names.includes(name)))

/** Quoted throughout: a word such as "on" stays one. */
const written = (value: unknown) => stringify(value, { defaultStringType: 'QUOTE_DOUBLE', defaultKeyType: 'PLAIN' })

function itemIn(activities: readonly Raw[], id: string): { readonly id: string; readonly raw: Raw } | undefined {
  const list = activities.find((one) => typeof one.list === 'string' && id.startsWith(`${one.list}.`))
  const raw = (list?.entries as readonly Raw[] | undefined)?.find(({ item }) => `${list?.list}.${item}` === id)
  return raw && { id, raw }
}

/** Nothing has to come first, and nothing comes of it. */
function exchangeOf(activity: Raw, wanted: readonly string[]): (Raw & { readonly turns: readonly Raw[] })[] {
  if (typeof activity.exchange !== 'string') return []
  const turns = (activity.turns as readonly Raw[])
    .filter(({ turn }) => wanted.includes(`${activity.exchange}.${turn}`))
    .map((turn) => without(turn, 'calls', 'states', 'interlocks', 'clears', 'moves', 'when'))
  return turns.length === 0 ? [] : [{ ...without(activity, 'when'), turns }]
}

function enteredWhereNotGiven(text: string, given: ReadonlySet<string>) {
  const file = parse(text) as { readonly figures: Readonly<Record<string, Raw>> } & Raw
  const entered = Object.entries(file.figures).flatMap(([name, figure]) =>
    figure.given !== undefined && !given.has(name) ? [name] : [],
  )
  const figures = Object.fromEntries(
    Object.entries(file.figures).map(([name, figure]) => {
      if (!entered.includes(name)) return [name, figure]
      const { group } = figure.given as { readonly group?: string }
      return [name, { ...without(figure, 'given'), entered: { ...(group && { group }) } }]
    }),
  )
  return { text: written({ ...file, figures }), entered }
}

/** A checklist on paper is of the whole pack's lists. */
function withoutLists(text: string): string {
  const { papers } = parse(text) as { readonly papers: Readonly<Record<string, Raw>> }
  const kept = Object.entries(papers)
    .map(([name, paper]) => [name, without(paper, 'lists')] as const)
    .filter(([, paper]) => ['lines', 'tables', 'notes'].some((part) => paper[part] !== undefined))
  return written({ papers: Object.fromEntries(kept) })
}
