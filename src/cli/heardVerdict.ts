/** What the ear heard -> a verdict. An utterance that the ear itself doubts is never more than "say again". */

import type { Heard } from '../kernel/hearing/heard.ts'
import { judge } from '../kernel/response/judge.ts'
import type { JudgeInput, Judgement } from '../kernel/response/model.ts'

export function judgeHeard(
  asked: Omit<JudgeInput, 'heard'>,
  heard: Pick<Heard, 'text' | 'alternatives' | 'doubt'>,
): Judgement {
  if (heard.doubt) return { verdict: 'sayAgain', parts: [], because: 'notUnderstood' }
  const { alternatives } = heard
  return judge({ ...asked, heard: heard.text, ...(alternatives && { alternatives }) })
}
