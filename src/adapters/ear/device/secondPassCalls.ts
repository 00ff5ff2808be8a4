/** What the second pass's thread answers to the first. */

import type { DecodePass } from '../recogniser/decodePass.ts'
import { parseDictionary } from '../recogniser/dictionary.ts'
import type { WarpEstimator } from '../recogniser/warpEstimator.ts'
import type { Recogniser } from '../utterance/recogniser.ts'
import type { SecondPassCalls } from './passCalls.ts'

/** `learned` is called when something may have been learned of the speaker. */
export function secondPassCalls(
  pass: Recogniser & Pick<DecodePass, 'learn'>,
  estimator: Pick<WarpEstimator, 'factor' | 'begin' | 'step'>,
  learned: () => void,
): SecondPassCalls {
  const and = <T>(answer: T): T => {
    learned()
    return answer
  }
  return {
    learn: (vocabulary, dictionary) => pass.learn(vocabulary, parseDictionary(dictionary)),
    expect: (task) => pass.expect(task),
    begin: (pcm) => pass.begin(pcm),
    push: (pcm) => pass.push(pcm),
    end: () => and(pass.end()),
    decode: (pcm) => and(pass.decode(pcm)),
    decodeOtherwise: (pcm) => and(pass.decodeOtherwise(pcm)),
    warp: () => estimator.factor,
    async estimateWarp() {
      await inSteps(estimator)
      return and(estimator.factor)
    },
  }
}

/** The voice has begun to speak by then. */
const FIRST_REST_MS = 200

/** Rests half of the time, for whatever else the page does on a small machine: the app speaks meanwhile. */
async function inSteps(estimator: Pick<WarpEstimator, 'begin' | 'step'>): Promise<void> {
  estimator.begin()
  for (let rest = FIRST_REST_MS, goesOn = true; goesOn; ) {
    await new Promise((done) => setTimeout(done, rest))
    const began = performance.now()
    goesOn = estimator.step()
    rest = performance.now() - began
  }
}
