/**
 * What is asked of the pilot: a response with the kinds of its figures, its states and its challenge, made ready for
 * answers to it. It holds no value.
 */

import type { KindSpec, Specs } from '../kinds/kind.ts'
import { isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
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

interface Made extends Asked {
  readonly specs: readonly (KindSpec | undefined)[]
  readonly states: readonly (readonly string[])[]
  readonly challengeText: string
}

/** An item of a pack has one challenge and one set of kinds; more only comes from outside, line by line. */
const MOST_KEPT = 60
const made = new WeakMap<Response, Made[]>()

/** Made once for each response with its kinds, states and challenge. */
export function askedFor(
  response: Response,
  specs: Specs,
  { challenge = '', states = NO_STATES }: AskedWith = {},
): Asked {
  const own = response.figures.map((name) => (Object.hasOwn(specs, name) ? specs[name] : undefined))
  const kept = made.get(response) ?? []
  const known = kept.find(
    (one) =>
      one.challengeText === challenge &&
      isAlike(one.states, states) &&
      one.specs.every((spec, index) => isSameShape(spec, own[index])),
  )
  if (known) return known
  if (kept.length >= MOST_KEPT) kept.length = 0
  const tokens = tokensOf(challenge)
  const asked: Made = {
    challenge: tokens,
    isEchoLikeAnswer: !tokens.some(isNumberToken) && tokens.some(({ canon }) => response.words.has(canon)),
    scenes: response.paths.map((path) => makeScene(path, specs, states, tokens)),
    ...{ specs: own, states, challengeText: challenge },
  }
  kept.push(asked)
  made.set(response, kept)
  return asked
}

const NO_STATES: readonly (readonly string[])[] = []

/** What of a figure is its value, and nothing of its kind. */
const VALUE_FIELDS: ReadonlySet<string> = new Set(['value', 'accept'])

function isSameShape(one: KindSpec | undefined, other: KindSpec | undefined): boolean {
  if (one === other) return true
  if (one?.kind !== other?.kind || !one || !other) return false
  const names = Object.keys({ ...one, ...other }).filter((name) => !VALUE_FIELDS.has(name)) as (keyof KindSpec)[]
  return names.every((name) => isAlike(one[name], other[name]))
}

/** Equal in all that they hold. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true
  if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false
  const [names, others] = [Object.keys(one), Object.keys(other)]
  return (
    names.length === others.length &&
    names.every((name) => isAlike(one[name as keyof typeof one], other[name as keyof typeof other]))
  )
}
