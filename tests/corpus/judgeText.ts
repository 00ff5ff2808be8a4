/** Judging as the command line does it: the response is a text, which is parsed once. */

import { judge } from '../../src/kernel/response/judge.ts'
import type { JudgeInput, Judgement } from '../../src/kernel/response/model.ts'
import { type Response, responseFrom } from '../../src/kernel/response/response.ts'

export type TextInput = Omit<JudgeInput, 'response'> & { readonly response: string }

const parsed = new Map<string, Response>()

/** The same object for the same text, as in a pack. */
export function responseOnce(text: string): Response {
  const response = parsed.get(text) ?? responseFrom(text)
  parsed.set(text, response)
  return response
}

export const judgeText = (input: TextInput): Judgement => judge({ ...input, response: responseOnce(input.response) })
