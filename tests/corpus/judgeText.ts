/** Judging as the command line does it: the response and what was heard are texts. */

import { type Hypotheses, hypothesesOf } from '../../src/kernel/response/hypotheses.ts'
import { judge } from '../../src/kernel/response/judge.ts'
import type { Alternative, JudgeInput, Judgement } from '../../src/kernel/response/model.ts'
import { type Response, responseFrom } from '../../src/kernel/response/response.ts'

export interface HeardText {
  readonly heard: string
  readonly score?: number
  readonly alternatives?: readonly Alternative[]
}
export type TextInput = Omit<JudgeInput, 'response' | keyof Hypotheses> & HeardText & { readonly response: string }

const parsed = new Map<string, Response>()

/** The same object for the same text, as in a pack. */
export function responseOnce(text: string): Response {
  const response = parsed.get(text) ?? responseFrom(text)
  parsed.set(text, response)
  return response
}

/** Any input with its heard texts cut into tokens. */
export function withTokens<T extends HeardText>({ heard, score, alternatives, ...rest }: T) {
  const scored = { text: heard, ...(score !== undefined && { score }), ...(alternatives && { alternatives }) }
  return { ...rest, ...hypothesesOf(scored) }
}

export const judgeText = ({ response, ...input }: TextInput): Judgement =>
  judge({ ...withTokens(input), response: responseOnce(response) })
