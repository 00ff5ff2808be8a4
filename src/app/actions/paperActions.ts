/** Papers on the table: opened, closed, put away; the scratch pad. In a run all but closing is logged. */

import { keyPress, type Press } from '../../kernel/interpret/keyPress.ts'
import type { RunController } from '../run/controller.ts'
import type { Store } from '../store.ts'
import type { PaperActions } from './actions.ts'

export function paperActions(store: Store, controller: Pick<RunController, 'session'>): PaperActions {
  function log(press: Press): void {
    const session = controller.session()
    void session?.happen((run) => keyPress(session.pack, run, press, 0))
  }

  function close(edition: string): void {
    store.setState(({ openPapers }) => ({ openPapers: openPapers.filter((one) => one !== edition) }))
  }

  function open(edition: string): void {
    store.setState(({ openPapers }) => ({ openPapers: [edition, ...openPapers] }))
    log({ type: 'paper', edition, how: 'lookedAt' })
  }

  return {
    turnPaper: (edition) => (store.getState().openPapers.includes(edition) ? close(edition) : open(edition)),
    putAwayPaper(edition) {
      close(edition)
      log({ type: 'paper', edition, how: 'putAway' })
    },
    takeOutPaper: (edition) => log({ type: 'paper', edition, how: 'takenOut' }),
    turnPad: () => store.setState(({ hasPad }) => ({ hasPad: !hasPad })),
    writePad: (pad) => log({ type: 'pad', ...pad }),
  }
}
