/**
 * What is asked of the pilot: a response with the kinds of its figures, its states and its challenge, made ready for
 * answers to it. It holds no value.
 */

import type { Specs } from '../kinds/kind.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { madeOnce } from './memo.ts'
import type { Response } from './response.ts'
import { makeScene, type Scene } from './scene.ts'

export interface Asked {
  readonly challenge: readonly Token[]
  /** The challenge has a word of the response and no number: what sounds like an echo of it may be the answer. */
  readonly isEchoLikeAnswer: boolean
  /** One for each path of the response. */
  readonly scenes: readonly Scene[]
}

export interface AskedWith {
  readonly challenge?: string | undefined
  readonly states?: readonly (readonly string[])[] | undefined
}

export const askedFor = (response: Response, specs: Specs, { challenge = '', states = [] }: AskedWith = {}): Asked =>
  prepared(response, specs, challenge, states)

const prepared = madeOnce((response, specs, challengeText: string, states: readonly (readonly string[])[]): Asked => {
  const challenge = tokensOf(challengeText)
  return {
    challenge,
    isEchoLikeAnswer: !challenge.some(isNumberToken) && challenge.some(({ canon }) => response.words.has(canon)),
    scenes: response.paths.map((path) => makeScene(path, specs, states, challenge)),
  }
})
