/** Packs, and the figures that are being typed. */

import type { Inputs } from '../../kernel/figures/model.ts'
import { previewOf } from '../figures/preview.ts'
import { pastAfter } from '../figures/undo.ts'
import { dealtBy } from '../run/beginning.ts'
import type { RunController } from '../run/controller.ts'
import { withoutTaken } from '../run/revision.ts'
import type { Store } from '../store.ts'
import type { DraftActions } from './actions.ts'

export function draftActions(store: Store, controller: Pick<RunController, 'openPack' | 'session'>): DraftActions {
  function preview(draft: Inputs, past = pastAfter(store.getState().past, store.getState().draft, draft)): void {
    const state = store.getState()
    store.setState({ draft, past, preview: state.pack && previewOf(state.pack, draft, state) })
  }

  /** In a run its papers come in with a call; before it they are just there. */
  async function lay(sheet: Inputs): Promise<void> {
    const session = controller.session()
    if (session) return session.lay(sheet)
    store.setState(({ sheets }) => ({ sheets: [...sheets, sheet] }))
    const { draft, past } = store.getState()
    preview(draft, past)
  }

  return {
    choosePack: controller.openPack,
    beginAt: (activity) => store.setState({ beginAt: activity }),
    deal(seed) {
      const { pack } = store.getState()
      const dealt = pack && dealtBy(pack, seed)
      if (!dealt) return
      const { preliminary } = dealt
      store.setState({ dealt: seed, sheets: [preliminary], takenFrom: preliminary, screen: 'figures' })
      preview(preliminary, [])
    },
    draft: (inputs) => preview(inputs),
    undo() {
      const { past } = store.getState()
      const last = past.at(-1)
      if (last) preview(last.draft, past.slice(0, -1))
    },
    async readInputs(text, fileName, how = 'takeOver') {
      const { pack, run } = store.getState()
      if (!pack) return
      const { readInputs } = await import('../../packs/inputs.ts')
      const { inputs, problems } = readInputs(text, fileName, pack)
      store.setState({ problems })
      if (!inputs) return
      if (how === 'lay') return lay(inputs)
      store.setState({ takenFrom: inputs })
      preview(withoutTaken(pack, inputs, run))
    },
  }
}
