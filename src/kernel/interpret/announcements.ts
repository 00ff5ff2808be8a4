/** What a pilot says of the run besides answers: a clearance that is in, steps that are done, a situation that has changed. */

import { phrase } from '../hearing/phrases.ts'
import { clausesOf, type Transcript, tokensOf } from '../numbers/tokens.ts'
import type { Decision, Flow, Line, Step } from '../pack/checklist.ts'
import { findLine, flowsOf, listById, stepsOf } from '../pack/place.ts'
import { isAnnounced, isOnlyNamed } from '../response/announced.ts'
import { isTypedQuestion, judge } from '../response/judge.ts'
import { isNegation } from '../response/lexicon.ts'
import { type Response, responseFrom } from '../response/response.ts'
import { yesOrNo } from '../response/yesNo.ts'
import type { EventBody } from '../run/core/events.ts'
import { flowAt, openSteps } from '../run/list/flowSteps.ts'
import { briefingsOf, exchangeAt } from '../run/talk/talk.ts'
import { isCalled } from './briefing.ts'
import type { Utterance } from './utterance.ts'

/** What a pilot says when a flow is done; of one step that was read out, "done" alone is said. */
const FLOW_DONE = responseFrom(
  '[the] flow [is] [all] (complete | completed | finished | done | redone) [again] | that completes [the] flow | ' +
    '(finished | completed | done) [the] [whole] flow | all (done | redone) [again] | complete | done | redone | done again',
)
const STEP_DONE = responseFrom('done | step done | checked')
const READ_OUT = responseFrom('read the flow | read [me] the steps | next step | what is next')

/** Whether words without a value are just these. */
export function isSaid(response: Response, heard: Transcript): boolean {
  return judge({ response, figures: {}, heard, exact: true }).verdict === 'correct'
}

/** The step that is said to be done. In one breath with another one it is none: only one would be ticked. */
function stepIn(steps: readonly Step[], heard: Transcript): Step | undefined {
  const said = steps.filter(({ say }) => say && isAnnounced(say, heard))
  const whole = said.filter(({ say }) => say && isSaid(say, heard))
  return whole[0] ?? (said.length === 1 ? said[0] : undefined)
}

/** The name of the open flow is "flow"; that of another is not. */
function unnamed({ name }: Flow, heard: Transcript): Transcript {
  const { text, tokens } = heard
  const own = tokensOf(name)
  const at = tokens.findIndex((_, from) => own.every((word, index) => tokens[from + index]?.text === word.text))
  if (at < 0) return heard
  return { text, tokens: [...tokens.slice(0, at), ...tokensOf('flow'), ...tokens.slice(at + own.length)] }
}

/** The clearance that the open line waits for. */
export function clearance({ pack, state: { floor }, said, evidence }: Utterance): EventBody | undefined {
  if (floor.at !== 'line') return undefined
  const line = findLine(listById(pack, floor.list), floor.line)
  const isIn = isAnnounced(line.say, said.heard) || clausesOf(said.heard).some((one) => isSaid(receipt(line), one))
  return isIn ? { type: 'cleared', clearance: line.clearance, evidence } : undefined
}

/** "We've got our push clearance", whatever the pack's own words for it are. */
function receipt(line: Line): Response {
  const known = receipts.get(line)
  if (known) return known
  const name = phrase(line.label)
  if (name === '') return line.say
  const made = responseFrom(
    `(we have | we've | I have | I've | got) [the | our | my] ${name} [in hand] | [the | our] ${name} [is] (received | obtained | in [hand] | granted)`,
  )
  receipts.set(line, made)
  return made
}
const receipts = new WeakMap<Line, Response>()

/** "Trim and speeds reset, flow complete": one clause of what was typed says so, and nothing denies it. */
function isFlowDone(heard: Transcript): boolean {
  if (isSaid(FLOW_DONE, heard)) return true
  return !heard.tokens.some(({ text }) => isNegation(text)) && clausesOf(heard).some((one) => isSaid(FLOW_DONE, one))
}

/** A tick of one step of the open flow by its own words, or of the whole flow; a wish to have the steps read out. */
export function flowCall({ pack, state, said: { heard }, evidence }: Utterance): EventBody | undefined {
  const flow = flowAt(pack, state.floor)
  if (!flow) return undefined
  const open = openSteps(flow, state)
  const [next] = open
  const step = stepIn(open, heard)
  if (step) return { type: 'stepDone', step: step.id, evidence }
  if (next && state.readingFlow && isSaid(STEP_DONE, heard)) return { type: 'stepDone', step: next.id, evidence }
  const isQuestion = isOnlyNamed(heard.tokens, FLOW_DONE) || isTypedQuestion(heard)
  if (!isQuestion && isFlowDone(unnamed(flow, heard))) return { type: 'flowClosed', flow: flow.id, evidence }
  if (isSaid(READ_OUT, heard)) return { type: 'flowAsked', flow: flow.id, evidence }
  const ahead = briefingsOf(pack).find((one) => !state.briefingsClosed.includes(one.id) && isCalled(one, heard))
  return ahead && { type: 'commanded', command: 'recheck', argument: ahead.name, evidence }
}

/** A step of a flow that was gone on from, by its own words, where something of the open exchange waits for it. */
export function stepOwed({ pack, state, said: { heard }, evidence }: Utterance): EventBody | undefined {
  const turns = exchangeAt(pack, state.floor)?.turns ?? []
  const open = turns.filter(({ id }) => state.turns[id]?.status !== 'done')
  const owed = new Set(open.flatMap(({ interlocks = [] }) => interlocks.map(({ after }) => after)))
  const steps = flowsOf(pack).flatMap((flow) => stepsOf(flow, state))
  const step = stepIn(
    steps.filter(({ id }) => owed.has(id) && !state.stepsDone.includes(id)),
    heard,
  )
  return step && { type: 'stepDone', step: step.id, evidence }
}

/** "Icing conditions": a situation by the pack's own words for it, where it has changed. */
export function situation({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  for (const { name, options } of pack.situations) {
    const option = options.find(({ say }) => isSaid(say, said.heard))
    if (option && state.situation[name] !== option.value) {
      return { type: 'situationSet', name, value: option.value, evidence }
    }
  }
  return undefined
}

/** How the open question of a list was answered: by the words for a situation, or by "yes" or "no". */
export function decision({ pack, said, evidence }: Utterance, decides: Decision): EventBody | undefined {
  const { situation: name } = decides
  const options = pack.situations.find((one) => one.name === name)?.options ?? []
  const short = yesOrNo(said.heard)
  const value = options.find(({ say }) => isSaid(say, said.heard))?.value ?? (short && decides[short])
  return value === undefined ? undefined : { type: 'situationSet', name, value, evidence }
}
