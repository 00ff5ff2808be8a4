/** The thread of the second pass, which decodes what the first hands it. */

import { expose } from 'comlink'
import createModule from 'soundswallower'
import { DecodePass, SECOND_PASS } from '../recogniser/decodePass.ts'
import { parseDictionary } from '../recogniser/dictionary.ts'
import { WarpEstimator } from '../recogniser/warpEstimator.ts'
import type { SecondPassCalls, SecondPassWorker } from './passCalls.ts'
import { profileKeeper } from './profileKeeper.ts'

const worker: SecondPassWorker = {
  async load({ files, profile }, first, page) {
    const module = await createModule({ print: () => {}, printErr: () => {} })
    const pass = await DecodePass.create(module, files, SECOND_PASS, profile)
    const estimator = new WarpEstimator(pass, profile?.warp)
    const keepProfile = profileKeeper(
      () => pass.profile && { ...pass.profile, warp: estimator.evidence },
      (profile) => void page.profile(SECOND_PASS.usual, profile),
    )
    const kept = <T>(answer: T): T => {
      keepProfile()
      return answer
    }
    const calls: SecondPassCalls = {
      learn: (vocabulary, dictionary) => pass.learn(vocabulary, parseDictionary(dictionary)),
      expect: (task) => pass.expect(task),
      begin: (pcm) => pass.begin(pcm),
      push: (pcm) => pass.push(pcm),
      end: () => kept(pass.end()),
      decode: (pcm) => kept(pass.decode(pcm)),
      decodeOtherwise: (pcm) => kept(pass.decodeOtherwise(pcm)),
      warp: () => estimator.factor,
      async estimateWarp() {
        await inSteps(estimator)
        keepProfile()
        return estimator.factor
      },
    }
    expose(calls, first)
  },
}
expose(worker)

/** The voice has begun to speak by then. */
const FIRST_REST_MS = 200

/** Rests half of the time, for whatever else the page does on a small machine: the app speaks meanwhile. */
async function inSteps(estimator: WarpEstimator): Promise<void> {
  estimator.begin()
  for (let rest = FIRST_REST_MS, goesOn = true; goesOn; ) {
    await new Promise((done) => setTimeout(done, rest))
    const began = performance.now()
    goesOn = estimator.step()
    rest = performance.now() - began
  }
}
