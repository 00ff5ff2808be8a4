/**
 * The baseline: what was heard is compared as one string with the answer in words, by Fuse.js, at the library's own
 * threshold and at a stricter one, over cases of the check corpus.
 */

import Fuse from 'fuse.js'
import { sayResponse } from '../../src/kernel/response/sentence.ts'
import type { Case } from '../corpus/case.ts'
import { checkingCases } from '../corpus/checking.ts'
import { responseOnce } from '../corpus/judgeText.ts'

const DEFAULT = 0.6
const STRICT = 0.4

/** 0 is the same, 1 nothing alike. */
function distance({ input }: Case): number {
  const wanted = sayResponse(responseOnce(input.response), input.figures, 'plain')
  const fuse = new Fuse([wanted], { includeScore: true, threshold: 1, ignoreLocation: true, ignoreFieldNorm: true })
  const heard = input.heard.toLowerCase().replace(/[.,]/g, '').slice(0, 200)
  return fuse.search(heard)[0]?.score ?? 1
}

export function measureBaseline(count: number, seed: number): Record<string, number> {
  const wrong = [...checkingCases('wrong', count, seed)].map(distance)
  const right = [...checkingCases('right', count, seed)].map(distance)
  const within = (list: readonly number[], limit: number) => list.filter((each) => each <= limit).length
  return {
    'baseline.threshold': DEFAULT,
    'baseline.wrongAccepted': within(wrong, DEFAULT),
    'baseline.wrongTried': wrong.length,
    'baseline.rightRefused': right.length - within(right, DEFAULT),
    'baseline.rightTried': right.length,
    'baseline.strict.threshold': STRICT,
    'baseline.strict.wrongAccepted': within(wrong, STRICT),
    'baseline.strict.rightRefused': right.length - within(right, STRICT),
  }
}
