/** The thread of the second pass, which decodes what the first hands it. */

import { expose } from 'comlink'
import createModule from 'soundswallower'
import { DecodePass } from '../recogniser/decodePass.ts'
import { SECOND_PASS } from '../recogniser/frontEnds.ts'
import { WarpEstimator } from '../recogniser/warpEstimator.ts'
import type { SecondPassWorker } from './passCalls.ts'
import { profileKeeper } from './profileKeeper.ts'
import { secondPassCalls } from './secondPassCalls.ts'

const worker: SecondPassWorker = {
  async load({ files, profile }, first, page) {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const pass = await DecodePass.create(module, files, SECOND_PASS, profile)
    const estimator = new WarpEstimator(pass, profile?.warp)
    const keepProfile = profileKeeper(
      () => pass.profile && { ...pass.profile, warp: estimator.evidence },
      (profile) => void page.profile(SECOND_PASS.usual, profile),
    )
    expose(secondPassCalls(pass, estimator, keepProfile), first)
  },
}
expose(worker)
