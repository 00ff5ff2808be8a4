/**
 * A pilot who sees only papers and the run screen: no computed value, no pack. What is asked is looked up on the checklist
 * card, its values on the sheets and cards; trim and speeds are worked out from the printed tables.
 */

import { papersView } from '../../src/app/papers/papersView.ts'
import type { RunSession } from '../../src/app/run/session.ts'
import { createAppStore } from '../../src/app/store.ts'
import { viewOf } from '../../src/app/view/view.ts'
import type { PrintedTable } from '../../src/kernel/papers/print.ts'

/** A paper as it is read: its title, its edition, its lines by label, its tables by caption. */
interface Read {
  readonly title: string
  readonly edition: number
  readonly lines: Readonly<Record<string, string>>
  readonly tables: readonly PrintedTable[]
  readonly rows: readonly { readonly challenge: string; readonly response: string }[]
}

const nothingElse = createAppStore().getState()

/** What lies on the table, newest edition of each first. */
function table({ pack, state }: RunSession): readonly Read[] {
  return papersView(pack, { ...nothingElse, run: state() }).pile.map(({ paper, number = 0, lines, tables, lists }) => ({
    title: paper.title,
    edition: number,
    lines: Object.fromEntries(lines.map(({ label, text }) => [label, text])),
    tables,
    rows: lists.flatMap((list) => list.rows),
  }))
}

/** `of` an edition: the first ones, as of a pilot who has not looked at the new ones. */
export type Editions = 'newest' | 'first'

/** "24,360 kg" -> 24360. */
const amount = (text: string) => Number(/-?[\d.]+/.exec(text.replaceAll(',', ''))?.[0])

export interface Papers {
  /** As it stands on the first paper that has such a line. */
  line(label: string): string
  /** Of this paper alone. */
  on(title: string, label: string): string
  /** The number of the newest edition. */
  edition(title: string): number
  /** The answer that the checklist card asks for, with its values. */
  answer(challenge: string): string
  readonly tables: readonly PrintedTable[]
}

/** What pilots know of their own cards: where the value for a blank stands. */
interface Habits {
  /** By what is asked, or the word before the blank. */
  readonly values: Readonly<Record<string, (papers: Papers) => string>>
}

/** `copied`: what the pilot has written down since, by label; it goes before the papers. */
export function papersOf(
  run: RunSession,
  habits: Habits,
  { editions = 'newest', copied }: { readonly editions?: Editions; readonly copied?: ReadonlyMap<string, string> } = {},
): Papers {
  const all = table(run)
  const pile = editions === 'newest' ? all : all.filter(({ edition }) => edition <= 1)
  const newest = pile.filter((one, index) => pile.findIndex(({ title }) => title === one.title) === index)
  const find = (label: string, from = newest) => {
    const text = from.map(({ lines }) => lines[label]).find((found) => found)
    if (!text) throw new Error(`no paper says ${label}`)
    return text
  }
  const papers: Papers = {
    tables: newest.flatMap(({ tables }) => tables),
    line: (label) => copied?.get(label) ?? find(label),
    on: (title, label) =>
      find(
        label,
        newest.filter((one) => one.title === title),
      ),
    edition: (title) => newest.find((one) => one.title === title)?.edition ?? Number.NaN,
    answer(challenge) {
      const row = newest.flatMap(({ rows }) => rows).find((one) => one.challenge === challenge)
      if (!row) throw new Error(`the checklist card has no ${challenge}`)
      let before = ''
      const words = row.response.split(' ').map((word) => {
        if (word !== '_____') {
          before = word
          return word
        }
        const value = habits.values[`${challenge}, ${before}`] ?? habits.values[challenge]
        before = ''
        return value ? value(papers) : papers.line(challenge)
      })
      return words.join(' ').replaceAll(',', '')
    },
  }
  return papers
}

type Points = readonly (readonly [number, number])[]

/** Linear between two points; one that is met exactly needs no other. */
function between(points: Points, at: number): number {
  const above = points.findIndex(([head]) => head >= at)
  const [high, highValue] = points[above] ?? [Number.NaN, Number.NaN]
  if (high === at) return highValue
  const [low, lowValue] = points[above - 1] ?? [Number.NaN, Number.NaN]
  return lowValue + ((highValue - lowValue) * (at - low)) / (high - low)
}

function blockOf(papers: Papers, caption: string, block: string) {
  const printed = papers.tables.find((one) => one.caption.startsWith(caption))
  const found = printed?.blocks.find(({ title }) => title === block)
  if (!found) throw new Error(`no card has a table of ${caption} ${block}`)
  return found
}

/** Linear between the lines of a printed table, by the number at its rows, in a column (and a block, where it has several). */
export function lookUp(papers: Papers, caption: string, at: number, column = '', block = ''): number {
  const { columns, rows } = blockOf(papers, caption, block)
  const index = columns.indexOf(column)
  return between(
    rows.map(({ head, cells }) => [Number(head), Number(cells[index])] as const),
    at,
  )
}

/** The same along a line of the table, between its columns. */
function lookAlong(papers: Papers, caption: string, line: string, at: number, block = ''): number {
  const { columns, rows } = blockOf(papers, caption, block)
  const cells = rows.find(({ head }) => head === line)?.cells ?? []
  return between(
    columns.map((column, index) => [Number(column), Number(cells[index])] as const),
    at,
  )
}

const tenth = (value: number) => (Math.round(value * 10 + 1e-6) / 10).toFixed(1)

/** The Marram's: trim by the card, speeds and fan speed off the takeoff data. */
export const MARRAM: Habits = {
  values: {
    'takeoff trim': (papers) => {
      const trim = lookUp(papers, 'takeoff trim', amount(papers.line('takeoff CG')), papers.line('takeoff flap'))
      return `${tenth(trim)} up`
    },
    'zero fuel weight': (papers) => String(amount(papers.line('zero fuel weight'))),
    'takeoff fan speed': (papers) => String(amount(papers.line('takeoff fan speed'))),
    'takeoff C G': (papers) => amount(papers.line('takeoff CG')).toFixed(1),
    'rotate speed': (papers) => String(amount(papers.line('rotate speed'))),
    'load sheet': (papers) => papers.line('persons on board'),
    'load sheet, edition': (papers) => String(papers.edition('load sheet')),

    // Off the gauge.
    'brake pressure': () => '3000',
    altimeters: (papers) => String(amount(papers.line('altimeter'))),
    runway: (papers) => papers.on('departure slip', 'Runway in use'),
    'takeoff speeds, one': (papers) => String(amount(papers.line('V one'))),
    'takeoff speeds, rotate': (papers) => String(amount(papers.line('rotate speed'))),
    'takeoff speeds, two': (papers) => String(amount(papers.line('V two'))),
    'fuel on board': (papers) => String(amount(papers.line('fuel on board'))),
    'fuel required': (papers) => String(amount(papers.line('fuel required'))),
    'takeoff weight': (papers) => String(amount(papers.line('takeoff weight'))),
    'V one': (papers) => String(amount(papers.line('V one'))),
    'V two': (papers) => String(amount(papers.line('V two'))),
    flap: (papers) => papers.line('takeoff flap'),
  },
}

const up = (value: number, step: number) => Math.ceil(value / step - 1e-9) * step
const down = (value: number, step: number) => Math.floor(value / step + 1e-9) * step
const number = (papers: Papers, label: string) => amount(papers.line(label))

/** A value that stands beside a name of one column: "11 | 112". */
const beside = (papers: Papers, caption: string, head: string) => {
  const row = blockOf(papers, caption, '').rows.find((one) => one.head === head)
  return Number(row?.cells[0])
}

/** By the next higher lines of the takeoff card, as its notes say. */
function onTakeoffCard(papers: Papers, caption: string): number {
  const pressure = number(papers, 'elevation') + (29.92 - number(papers, 'altimeter')) * 1000
  const [altitude, temperature] = [up(pressure, 1000) + 0, up(number(papers, 'outside temperature'), 20) + 0]
  return lookAlong(
    papers,
    caption,
    String(temperature),
    number(papers, 'takeoff weight'),
    `pressure altitude ${altitude}`,
  )
}

function distance(papers: Papers, caption: string): string {
  const heading = beside(papers, 'runway heading', papers.line('runway'))
  const off = ((number(papers, 'wind direction') - heading) * Math.PI) / 180
  const headwind = Math.round(number(papers, 'wind speed') * Math.cos(off))
  const line = String(down(Math.min(headwind, 20), 5) + 0)
  const still = up(onTakeoffCard(papers, caption), 10)
  const flap = `flap ${amount(papers.line('Takeoff flap'))}`
  return String(up(lookUp(papers, 'distance by wind and flap', still, line, flap), 50))
}

const bestRate = (papers: Papers) =>
  String(up(lookUp(papers, 'single engine best rate', number(papers, 'takeoff weight')), 1))

/** The piston twin's: trim, speeds and distances by the cards. */
export const PAIR: Habits = {
  values: {
    'takeoff weight': (papers) => String(number(papers, 'takeoff weight')),
    'center of gravity': (papers) => number(papers, 'takeoff CG').toFixed(1),
    'fuel on board': (papers) => String(number(papers, 'fuel on board')),
    'runway available': (papers) => String(beside(papers, 'runway available', papers.line('runway'))),
    'runway heading': (papers) => String(beside(papers, 'runway heading', papers.line('runway'))).padStart(3, '0'),
    'takeoff distance': (papers) => distance(papers, 'takeoff distance in still air'),
    'accelerate stop distance': (papers) => distance(papers, 'accelerate stop distance in still air'),
    'single engine climb': (papers) => String(down(onTakeoffCard(papers, 'single engine climb'), 10)),
    'minimum control speed': (papers) => String(amount(papers.line('Minimum control speed (red line)'))),
    'single engine best rate': bestRate,
    'engine failure gear up': bestRate,
    altimeter: (papers) => papers.line('altimeter').split(' ')[0] ?? '',
    flap: (papers) => String(amount(papers.line('Takeoff flap'))),
    'elevator trim': (papers) => {
      const trim = lookUp(papers, 'elevator trim', number(papers, 'takeoff CG'))
      const half = Math.round(trim * 2 + 1e-6) / 2
      return half === 0 ? 'zero' : `${Math.abs(half).toFixed(1)} ${half < 0 ? 'down' : 'up'}`
    },
    'lift off speed': (papers) => {
      const flap = String(amount(papers.line('Takeoff flap')))
      return String(up(lookUp(papers, 'lift off speed', number(papers, 'takeoff weight'), flap), 1))
    },
  },
}

/** What a gauge may show, by the call that reads it: papers do not say, the pilot sees it. */
export const GAUGES: Readonly<Record<string, string>> = {
  low: '1500',
  feather: '300',
  check: '2000',
  propeller: '250',
  left: '110',
  right: '120',
  magneto: '10',
  difference: '10',
  alternator: '30',
  load: '30',
  suction: '5.0',
}

/** What the screen shows. */
export function screenOf({ pack, state }: RunSession) {
  return viewOf(pack, state())
}
