/**
 * What a station has asked to have confirmed. A call that then leaves it out is not whole, until it is said or the same
 * request was made twice more without it.
 */

import type { Judgement, Part } from '../../response/model.ts'
import type { ExchangeTurnState } from '../core/state.ts'

type Asked = Pick<ExchangeTurnState, 'owed' | 'withoutOwed'>

/** How a call is judged where something is owed. */
export function withOwed(judgement: Judgement, asked: Asked): Judgement {
  const { verdict, parts } = judgement
  const left = leftOut(judgement, asked)
  const isInsisted = (asked.withoutOwed ?? 0) > 0 && saysRequest(parts)
  if (verdict !== 'correct' || left.length === 0 || isInsisted) return judgement
  const missing = left.map((name): Part => ({ name, kind: 'figure', state: 'missing' }))
  return { verdict: 'incomplete', because: 'missing', parts: [...parts, ...missing] }
}

/** What is owed after a call. */
export function owedAfter(judgement: Judgement, asked: Asked): Asked {
  const { verdict, parts } = judgement
  const wrong = parts.flatMap(({ name, kind, state }) => (kind === 'figure' && state === 'wrong' ? [name] : []))
  const left = leftOut(judgement, asked)
  const isRequested = verdict === 'incomplete' && left.length > 0 && saysRequest(parts)
  return {
    owed: [...new Set([...left, ...wrong])],
    withoutOwed: (asked.withoutOwed ?? 0) + (isRequested ? 1 : 0),
  }
}

/** Owed, and not said right now. */
export const leftOut = ({ parts }: Judgement, { owed = [] }: Asked): readonly string[] =>
  owed.filter((name) => !parts.some((part) => part.name === name && part.state === 'ok'))

/** The words of the request were said now, not in an earlier breath. */
const saysRequest = (parts: readonly Part[]) =>
  parts.some(({ kind, state, heard }) => kind === 'word' && state === 'ok' && heard !== undefined)
