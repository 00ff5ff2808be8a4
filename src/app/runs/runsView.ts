/** The list of runs in words, and which of it a filter leaves. */

import { ACCOUNT_VERSION, type RunSummary } from '../../kernel/run/core/summary.ts'
import { missedLine } from '../../kernel/run/debrief/totals.ts'

export interface RunFilter {
  /** The pack's id, or its name where a log of an earlier edition has no id; empty for all. */
  readonly pack: string
  /** Days as a date field gives them, "2026-11-30", in the person's own time; empty where there is no limit. */
  readonly from: string
  readonly to: string
  readonly end: 'all' | 'over' | 'notOver'
}

export const NO_FILTER: RunFilter = { pack: '', from: '', to: '', end: 'all' }

export const packKey = ({ packId, pack }: Pick<RunSummary, 'packId' | 'pack'>): string => packId ?? pack

/** Whether the log has its end; earlier editions knew only of runs that are not offered any more. */
export const isOver = ({ isOver, events, ended }: RunSummary): boolean =>
  events === undefined ? ended : isOver === true

export function filtered(runs: readonly RunSummary[], { pack, from, to, end }: RunFilter): readonly RunSummary[] {
  const first = from === '' ? Number.NEGATIVE_INFINITY : new Date(`${from}T00:00:00`).getTime()
  const last = to === '' ? Number.POSITIVE_INFINITY : new Date(`${to}T23:59:59.999`).getTime()
  return runs.filter(
    (run) =>
      (pack === '' || packKey(run) === pack) &&
      run.startedAt >= first &&
      run.startedAt <= last &&
      (end === 'all' || isOver(run) === (end === 'over')),
  )
}

/** Packs that were flown, each once, by name. */
export function packsFlown(runs: readonly RunSummary[]): { readonly key: string; readonly name: string }[] {
  const names = new Map(runs.map((run) => [packKey(run), run.pack]))
  return [...names].map(([key, name]) => ({ key, name })).toSorted((one, other) => one.name.localeCompare(other.name))
}

const FLOWS = { shown: '', spoken: 'flows read out', memory: 'flows from memory' } as const
const PHRASEOLOGIES = { plain: '', standard: 'standard phraseology', verbatim: 'verbatim' } as const

/** What was flown, and in which mode: "departure 17, stations with FAA words, late catch". */
export function flownWords({ flown }: Pick<RunSummary, 'flown'>): string {
  if (!flown) return ''
  const { dealt, stations, settings, isAgain, isFurtherOn, isDrill, isShown } = flown
  const words = [
    isDrill ? 'a drill' : isAgain ? 'that moment again' : '',
    isFurtherOn && !isAgain ? 'begun in the middle' : '',
    isShown ? 'shown to a room' : '',
    dealt === undefined ? 'figures entered' : `departure ${dealt}`,
    stations ? `stations with ${settings.radio === 'faa' ? 'FAA' : 'ICAO'} words` : 'no stations',
    PHRASEOLOGIES[settings.phraseology],
    FLOWS[settings.flows ?? 'shown'],
    settings.lateCatch ? 'late catch' : '',
  ]
  return words.filter((word) => word !== '').join(', ')
}

/** How far it went: "46 of 52 items, 6 of 7 lists complete". */
export function reachWords({ account }: Pick<RunSummary, 'account'>): string {
  if (!account) return ''
  const { closed, items, completeLists, lists } = account
  return `${closed} of ${items} items, ${completeLists} of ${lists} lists complete`
}

/** "6 missed: 3 at items, 2 in calls, read-backs and orders, 1 in engine starts", as its debrief has it. */
export function missWords({ account }: Pick<RunSummary, 'account'>): string {
  // An account of an earlier edition had not all of the places; it is made anew.
  return account && account.v === ACCOUNT_VERSION ? missedLine(account) : ''
}

/** Letters of all logs: near enough to their bytes. */
export const lettersIn = (runs: readonly RunSummary[]): number =>
  runs.reduce((sum, { letters = 0 }) => sum + letters, 0)

/** "24 MB", "340 kB". */
export function sizeWords(bytes: number): string {
  if (bytes >= 1e9) return `${(bytes / 1e9).toFixed(1)} GB`
  return bytes >= 1e6 ? `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB` : `${Math.ceil(bytes / 1e3)} kB`
}
