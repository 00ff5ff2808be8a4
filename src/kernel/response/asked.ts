/**
 * What is asked of the pilot: a response with the kinds of its figures, its states and its challenge, made ready for
 * answers to it. It holds no value.
 */

import type { Specs } from '../kinds/kind.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { type Frame, makeFrame } from './frame.ts'
import { madeOnce } from './memo.ts'
import type { PartStates } from './model.ts'
import { isEmpty, statesWith } from './packSynonyms.ts'
import type { Response } from './response.ts'

export interface Asked {
  readonly challenge: readonly Token[]
  /** The challenge shares a word with the response and holds no number: what sounds like its echo may be the answer. */
  readonly isEchoLikeAnswer: boolean
  /** One for each path of the response. */
  readonly frames: readonly Frame[]
}

export interface AskedWith {
  readonly challenge?: string | undefined
  readonly states?: readonly (readonly string[])[] | undefined
  readonly partStates?: PartStates | undefined
}

export const askedFor = (
  response: Response,
  specs: Specs,
  { challenge = '', states = [], partStates = NO_PARTS }: AskedWith = {},
): Asked => prepared(response, specs, challenge, states, partStates)

const NO_PARTS: PartStates = {}

const prepared = madeOnce(
  (response, specs, challengeText: string, states: readonly (readonly string[])[], partStates: PartStates): Asked => {
    const challenge = tokensOf(challengeText)
    const { synonyms } = response
    const written = isEmpty(synonyms) ? undefined : new Set(tokensOf(response.text).map(({ text }) => text))
    const all = statesWith(states, response.words, synonyms)
    return {
      challenge,
      isEchoLikeAnswer: !challenge.some(isNumberToken) && challenge.some(({ canon }) => response.words.has(canon)),
      frames: response.paths.map((path) => makeFrame(path, specs, all, challenge, written, partStates)),
    }
  },
)
