/** Progress as pictures: each a row of points with what bounds them, in plain words, the same for the picture and its table. */

import type { Estimate } from '../../kernel/statistics/intervals.ts'
import type { MissCause, PlantedKind, TrialClass } from '../../kernel/training/facts.ts'
import type { ClassProgress, Progress, Rarity } from '../../kernel/training/progress.ts'

export interface ChartRow {
  readonly label: string
  /** For the axis, where there is little room. */
  readonly short: string
  /** In the chart's unit. */
  readonly value: number | undefined
  readonly low: number | undefined
  readonly high: number | undefined
  /** How many trials it rests on. */
  readonly n: number
  /** Too few to tell. */
  readonly isFew: boolean
}

export interface Chart {
  readonly id: string
  readonly title: string
  /** What it says, in one or two sentences. */
  readonly words: string
  readonly unit: '%' | 's'
  readonly shape: 'line' | 'bars'
  /** Head of the first column. */
  readonly of: string
  /** Head of the column of counts. */
  readonly counted: string
  readonly rows: readonly ChartRow[]
  /** A line to be reached, in the chart's unit. */
  readonly goal?: number
}

/** Below it a figure is given with its count, and called nothing. */
export const FEW = 10

export const CLASS_NAMES: Readonly<Record<TrialClass, string>> = {
  value: 'Items with a value',
  word: 'Items with words',
  readBack: 'Read-backs',
  exchange: 'Calls to stations',
  flow: 'Flows from memory',
  watchCall: 'Calls of engine starts',
  reading: 'Values from a card',
}

const CAUSES: Readonly<Record<MissCause, readonly [name: string, short: string]>> = {
  earlierRevision: ['Value of earlier figures', 'old\nfigures'],
  otherFigure: ['Value of another item', 'other\nitem'],
  digitsSwapped: ['Digits swapped', 'digits\nswapped'],
  neighbourRow: ['Neighbouring row of a card', 'next\nrow'],
  neighbourColumn: ['Neighbouring column of a card', 'next\ncolumn'],
  otherFlap: ['Value for another flap', 'other\nflap'],
  otherUnit: ['Value in another unit', 'other\nunit'],
  otherValue: ['Another value, cause unknown', 'other\nvalue'],
  otherState: ['Another state or direction', 'other\nstate'],
  leftOut: ['Something left out', 'left\nout'],
  valueless: ['Said to be done, without its value', 'no\nvalue'],
  outsideLimits: ['Outside its limits', 'out of\nlimits'],
  tooEarly: ['Too early', 'too\nearly'],
  late: ['Late, or not called', 'late'],
  notFromMemory: ['Read out on request', 'read\nout'],
  notEnded: ['Flow not called complete', 'not\nended'],
}

const RARITY_NAMES: Readonly<Record<Rarity, readonly [name: string, short: string]>> = {
  often: ['The run before had one too', 'run\nbefore'],
  sometimes: ['The last was two to four runs before', '2 to 4\nbefore'],
  rare: ['The last was five or more runs before', '5 or\nmore'],
}

export const PLANTED_NAMES: Readonly<Record<PlantedKind, string>> = {
  staleTrim: 'load moved, trim stale',
  otherRunway: 'runway changed',
  wrongTotal: 'total does not add up',
  oldSheet: 'sheet of an old edition',
  slip: "a controller's slip",
  lateCatch: 'what new figures changed, not announced',
}

const BREAKS = {
  standBy: ['Stand by', 'stand\nby'],
  break: ['A long silence', 'silence'],
  left: ['The page left', 'page\nleft'],
  all: ['All', 'all'],
} as const

/** `of`: the class that is looked at. */
export function chartsOf(progress: Progress, of: TrialClass | undefined): Chart[] {
  const one = progress.classes.find((each) => each.of === of) ?? progress.classes[0]
  const charts = [
    ...(one ? classCharts(one) : []),
    causes(progress),
    readBacks(progress),
    catches(progress),
    breaks(progress),
  ]
  return charts.filter(({ rows }) => rows.length > 0)
}

function classCharts({ of, stretches, right, time }: ClassProgress): Chart[] {
  const name = CLASS_NAMES[of]
  const label = ({ from, to }: ClassProgress['stretches'][number]) =>
    from === to ? `Run ${from}` : `Runs ${from} to ${to}`
  const short = ({ from, to }: ClassProgress['stretches'][number]) => (from === to ? `${from}` : `${from}-${to}`)
  const rightRows = stretches.map((each) => row(label(each), short(each), each.right, 100))
  const timeRows = stretches.map((each) => row(label(each), short(each), each.time, 1 / 1_000))
  return [
    {
      id: 'right',
      title: 'Right the first time',
      words: `${name}: ${inWords(right, '%')}. ${trend(rightRows, '%')}`,
      ...{ unit: '%', shape: 'line', of: 'Runs', counted: 'Trials', rows: rightRows },
    },
    {
      id: 'time',
      title: 'Time to answer',
      words:
        time.n === 0
          ? `${name}: no times, since you choose when you speak.`
          : `${name}: half of them within ${number(time.value, 1 / 1_000, 1)} s, counted from where Otherseat or the station begins to speak. ${trend(timeRows, 's')}`,
      ...{ unit: 's', shape: 'line', of: 'Runs', counted: 'Answers timed', rows: time.n === 0 ? [] : timeRows },
    },
  ]
}

/** Whether the last stretch differs from the first beyond what chance does: where their intervals lie apart. */
function trend(rows: readonly ChartRow[], unit: Chart['unit']): string {
  const known = rows.filter(({ isFew }) => !isFew)
  const [first, last] = [known[0], known.at(-1)]
  if (!first || !last || first === last) return 'Too few runs yet to tell whether it changes.'
  const [low, high] = [first.low ?? 0, first.high ?? 0]
  const isLower = (last.high ?? 0) < low
  if (!isLower && (last.low ?? 0) <= high) return 'Since the first runs no more change than chance makes.'
  if (unit === '%') return isLower ? 'Less often than in your first runs.' : 'More often than in your first runs.'
  return isLower ? 'Quicker than in your first runs.' : 'Slower than in your first runs.'
}

function causes({ causes, misses }: Progress): Chart {
  const [most] = causes
  return {
    id: 'causes',
    title: 'Misses by cause',
    words: most
      ? `${misses} ${misses === 1 ? 'trial was' : 'trials were'} not right the first time. ${misses < FEW ? 'Too few to say what is behind most.' : `Most often: ${lower(CAUSES[most.cause][0])}.`}`
      : '',
    ...{ unit: '%', shape: 'bars', of: 'Cause', counted: 'Misses' },
    rows: causes.map(({ cause, count, share }) => ({
      ...row(CAUSES[cause][0], CAUSES[cause][1], share, 100),
      n: count,
      isFew: misses < FEW,
    })),
  }
}

function readBacks({ readBacks, readBackHeld: { n, value, low, high } }: Progress): Chart {
  const held = value === 0 ? 'no length yet' : `${value} ${value === 1 ? 'element' : 'elements'}`
  const bounds = low === undefined || high === undefined || low === high ? '' : `, probably between ${low} and ${high}`
  return {
    id: 'readBacks',
    title: 'Read-backs by length',
    words:
      n < FEW
        ? `${counted(n, 'read-back')}: too few to tell what length you hold.`
        : `Right the first time nine times in ten: ${held}${bounds}.`,
    ...{ unit: '%', shape: 'line', of: 'Elements', counted: 'Read-backs', goal: 90 },
    rows: readBacks.map(({ elements, right }) => row(`${elements}`, `${elements}`, right, 100)),
  }
}

function catches({ catches, catchesOf }: Progress): Chart {
  const kinds = catchesOf.map(
    ({ kind, caught: { n, value = 0 } }) => `${PLANTED_NAMES[kind]} ${Math.round(value * n)} of ${n}`,
  )
  return {
    id: 'catches',
    title: 'Planted traps and slips caught',
    words: `By how long ago the one before was, since what is rare is seen less. By kind: ${kinds.join(', ')}.`,
    ...{ unit: '%', shape: 'bars', of: 'Rarity', counted: 'Planted' },
    rows: catches.map(({ rarity, caught }) => row(RARITY_NAMES[rarity][0], RARITY_NAMES[rarity][1], caught, 100)),
  }
}

function breaks({ resumeErrors }: Progress): Chart {
  const all = resumeErrors.find(({ what }) => what === 'all')?.errors
  return {
    id: 'breaks',
    title: 'Resuming at another place',
    words: all
      ? `In a hundred breaks at an open item: ${all.n < FEW ? `${counted(all.n, 'break')}, too few to tell` : inWords(all, '')}. Told by the words alone: another item's value, another list, a step of a flow.`
      : '',
    ...{ unit: '%', shape: 'bars', of: 'Break', counted: 'Breaks' },
    rows: resumeErrors.map(({ what, errors }) => row(BREAKS[what][0], BREAKS[what][1], errors, 100)),
  }
}

function row(label: string, short: string, { n, value, low, high }: Estimate, scale: number): ChartRow {
  const scaled = (one: number | undefined) => (one === undefined ? undefined : one * scale)
  return { label, short, n, value: scaled(value), low: scaled(low), high: scaled(high), isFew: n < FEW }
}

/** "87 % of 120, probably between 80 and 92 %". */
function inWords({ n, value, low, high }: Estimate, unit: '%' | ''): string {
  if (value === undefined) return 'none yet'
  const sign = unit && ' %'
  if (n < FEW) return `${Math.round(value * n)} of ${n}, too few to tell`
  return `${number(value, 100)}${sign} of ${n}, probably between ${number(low, 100)} and ${number(high, 100)}${sign}`
}

const number = (value: number | undefined, scale: number, decimals = 0) =>
  value === undefined ? '' : (value * scale).toFixed(decimals)

export const counted = (n: number, name: string) => `${n} ${name}${n === 1 ? '' : 's'}`
const lower = (text: string) => text.charAt(0).toLowerCase() + text.slice(1)
