import { useMemo } from 'preact/hooks'
import { type PapersView, papersView } from '../../../app/papers/papersView.ts'
import { useApp } from '../../useApp.ts'

const NONE: PapersView = { pile: [], open: [], away: [] }

/** The papers as they lie now; none where the pack has none. */
export function usePapers(): PapersView {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const sheets = useApp((state) => state.sheets)
  const openPapers = useApp((state) => state.openPapers)
  const draft = useApp((state) => state.draft)
  const settings = useApp((state) => state.settings)
  return useMemo(
    () => (pack ? papersView(pack, { run, sheets, openPapers, draft, settings }) : NONE),
    [pack, run, sheets, openPapers, draft, settings],
  )
}
