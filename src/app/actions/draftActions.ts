/** Packs, and the figures that are being typed. */

import { compute } from '../../kernel/figures/compute.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { pastAfter } from '../figures/undo.ts'
import { dealtBy } from '../run/beginning.ts'
import type { RunController } from '../run/controller.ts'
import { withoutTaken } from '../run/revision.ts'
import type { Store } from '../store.ts'
import type { DraftActions } from './actions.ts'

export function draftActions(store: Store, { openPack }: Pick<RunController, 'openPack'>): DraftActions {
  function preview(draft: Inputs, past = pastAfter(store.getState().past, store.getState().draft, draft)): void {
    const { pack } = store.getState()
    store.setState({ draft, past, preview: pack && compute(pack.figures, draft) })
  }

  return {
    choosePack: openPack,
    deal(seed) {
      const { pack } = store.getState()
      const dealt = pack && dealtBy(pack, seed)
      if (!dealt) return
      preview(dealt.preliminary, [])
      store.setState({ dealt: seed, screen: 'figures' })
    },
    draft: (inputs) => preview(inputs),
    undo() {
      const { past } = store.getState()
      const last = past.at(-1)
      if (last) preview(last.draft, past.slice(0, -1))
    },
    async readInputs(text, fileName) {
      const { pack, run } = store.getState()
      if (!pack) return
      const { readInputs } = await import('../../packs/inputs.ts')
      const { inputs, problems } = readInputs(text, fileName, pack)
      store.setState({ problems })
      if (inputs) preview(withoutTaken(inputs, run))
    },
  }
}
