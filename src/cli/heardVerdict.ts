/** What the ear heard -> a verdict. An utterance that the ear itself doubts is never more than "say again". */

import type { Heard } from '../kernel/hearing/heard.ts'
import { type Hypotheses, hypothesesOf } from '../kernel/response/hypotheses.ts'
import { judge } from '../kernel/response/judge.ts'
import type { JudgeInput, Judgement } from '../kernel/response/model.ts'

export function judgeHeard(
  asked: Omit<JudgeInput, keyof Hypotheses>,
  { text, alternatives, doubt }: Pick<Heard, 'text' | 'alternatives' | 'doubt'>,
): Judgement {
  if (doubt) return { verdict: 'sayAgain', parts: [], because: 'notUnderstood' }
  return judge({ ...asked, ...hypothesesOf({ text, ...(alternatives && { alternatives }) }) })
}
