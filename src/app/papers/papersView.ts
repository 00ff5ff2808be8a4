/** The papers on the table as screens show them: what lies there, what lies open, what was put away. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { type Edition, pileOf } from '../../kernel/papers/pile.ts'
import type { AppState } from '../store.ts'

export interface PaperView extends Edition {
  /** "edition 2", "Issue 3"; empty for a card without an issue. */
  readonly which: string
  readonly isOpen: boolean
  /** Clock time at which it came in, ms since 1970; undefined before the run, and for cards. */
  readonly cameAt: number | undefined
}

export interface PapersView {
  /** In the pack's order, newest edition of each first. */
  readonly pile: readonly PaperView[]
  readonly open: readonly PaperView[]
  readonly away: readonly PaperView[]
}

export function papersView(
  pack: Pack,
  { run, sheets, openPapers, draft, settings }: Pick<AppState, 'run' | 'sheets' | 'openPapers' | 'draft' | 'settings'>,
): PapersView {
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const editions = run
    ? pileOf(pack, run.sheets, { situation: run.situation, hasStations: run.script !== undefined })
    : pileOf(
        pack,
        sheets.map((inputs) => ({ inputs })),
        { situation: { ...initial, ...draft.situation }, hasStations: settings.stations },
      )
  const views = editions.map((edition): PaperView => {
    const { paper, number, t } = edition
    return {
      ...edition,
      which: number === undefined ? (paper.issue ?? '') : `edition ${number}`,
      isOpen: openPapers.includes(edition.id),
      cameAt: run && t !== undefined ? run.startedAt + t : undefined,
    }
  })
  const away = new Set(run?.putAway ?? [])
  const pile = views.filter(({ id }) => !away.has(id))
  return {
    pile,
    open: openPapers.flatMap((id) => pile.find((one) => one.id === id) ?? []),
    away: views.filter(({ id }) => away.has(id)),
  }
}
