/** A run that came in under the id of another one, and differs from it: it is kept beside that, and is a version of the same flight. */

import { LONGEST_RUN_ID } from '../../kernel/bounds.ts'

const DIGEST = 8
const BESIDE = /~[0-9a-f]{8}$/

/** `digest`: of what is in it, in hexadecimal digits, so that it is known again when it is brought in once more. */
export const besideId = (runId: string, digest: string): string =>
  `${runId.slice(0, LONGEST_RUN_ID - DIGEST - 1)}~${digest.slice(0, DIGEST)}`

export const isBeside = (runId: string): boolean => BESIDE.test(runId)
