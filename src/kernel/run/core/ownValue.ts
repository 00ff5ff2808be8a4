/**
 * "Your takeoff trim?": the pack has the pilot work a figure out before Otherseat's own value counts. A difference is
 * explained by what fits it alone, and only when the pilot's value is in (law 4).
 */

import type { Pack } from '../../pack/checklist.ts'
import type { Judgement } from '../../response/model.ts'
import type { RunEvent } from './events.ts'
import { sayAndListen } from './listening.ts'
import { ownQuestion } from './ownQuestion.ts'
import { say } from './phrases.ts'
import type { LastAnswer, Question, RunState, Step } from './state.ts'

/** Right: the next is asked for, or the open place put. Wrong: why it may be, and the same once more. */
export function ownValueSaid(pack: Pack, before: RunState, event: RunEvent<'ownValueSaid'>): Step {
  const { figure, isRight, causes } = event
  const label = pack.figures.declarations[figure]?.label ?? figure
  const last = shown(event, label)
  if (!isRight) {
    const state: RunState = { ...before, last, question: { about: 'ownValue', figure } }
    const [only, ...others] = causes
    const why = only && others.length === 0 ? say.fits(only.cause) : ''
    return sayAndListen(pack, state, [say.ownDiffers(label), why], { tone: 'attention' })
  }
  const rest: RunState = {
    ...before,
    last,
    ownToAsk: before.ownToAsk.filter((name) => name !== figure),
    question: undefined,
  }
  const state = { ...rest, question: ownQuestion(rest, rest.floor) }
  return sayAndListen(pack, state, [say.agrees(label)], { prompt: true, tone: 'tick' })
}

/** What lacks is asked for, and the rest kept; nothing is told of it. */
export function ownValueBegun(pack: Pack, before: RunState, event: RunEvent<'ownValueBegun'>): Step {
  const { figure, lacks, evidence } = event
  const label = pack.figures.declarations[figure]?.label ?? figure
  const part = { name: figure, kind: 'figure', state: 'missing', lacks, heard: evidence.text } as const
  const judgement: Judgement = { verdict: 'incomplete', because: 'missing', parts: [part] }
  const last: LastAnswer = {
    ...{ item: figure, of: 'ownValue', challenge: label, text: evidence.text, by: evidence.by },
    judgement,
  }
  // "Up" by itself is the rest of a number, and nothing to go on with.
  const question: Question = { about: 'ownValue', figure, ...(lacks !== 'digits' && { begun: evidence.text }) }
  return sayAndListen(pack, { ...before, last, question }, [
    say.missing(label, [lacks === 'digits' ? 'all digits' : lacks]),
  ])
}

/** As the screen shows an answer: what was heard, and the verdict. */
function shown({ figure, value, isRight, evidence }: RunEvent<'ownValueSaid'>, label: string): LastAnswer {
  const { text, by } = evidence
  const part = { name: figure, kind: 'figure', read: value, heard: text } as const
  const judgement: Judgement = isRight
    ? { verdict: 'correct', parts: [{ ...part, state: 'ok' }] }
    : { verdict: 'negative', because: 'value', parts: [{ ...part, state: 'wrong' }] }
  return { item: figure, of: 'ownValue', challenge: label, text, by, judgement }
}

/** The pilot does not want to: nothing is asked of this revision any more. */
export function unasked(pack: Pack, state: RunState): Step {
  return sayAndListen(pack, { ...state, ownToAsk: [], question: undefined }, [], { prompt: true })
}
