/** What is said beside answers: calls of a watch, ticks of a flow, a situation that has changed. */

import type { Heard } from '../hearing/heard.ts'
import type { Figure } from '../kinds/kind.ts'
import type { Flow, Pack, Watch, WatchCall } from '../pack/checklist.ts'
import { judge } from '../response/judge.ts'
import { type Response, responseFrom } from '../response/response.ts'
import type { Evidence, Happening } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { openSteps } from '../run/core/turn.ts'
import { runningWatch, watchAt, watchesOf, watchState } from '../run/watch/watchTiming.ts'

/** What a pilot says when a flow is done; of one step that was read out, "done" alone is said. */
const FLOW_DONE = responseFrom('[the] flow (complete | done | is done | is complete) | complete | all done | done')
const STEP_DONE = responseFrom('done | step done | checked')
const READ_OUT = responseFrom('read the flow | read [me] the steps | next step | what is next')
const VALUE_ALONE = responseFrom('[at] <value> [percent]')

export function isSaid(response: Response, text: string): boolean {
  return judge({ response, figures: {}, heard: text }).verdict === 'correct'
}

const onset = (state: RunState, heard: Heard) => Math.max(0, heard.beganAt - state.startedAt)

/**
 * A call of the watch that has the floor, or the beginning of one. What the ear doubts is no call: the
 * watch asks for it at its time.
 */
export function watchHeard(pack: Pack, state: RunState, heard: Heard, evidence: Evidence): Happening | undefined {
  if (heard.doubt) return undefined
  const watch = runningWatch(pack, state) ?? watchAt(pack, state.floor)
  const at = onset(state, heard)
  const abnormal = watch?.abnormal.find(({ say }) => isSaid(say, heard.text))
  if (watch && abnormal) return { type: 'watchStopped', watch: watch.id, abnormal: abnormal.id, at, evidence }
  const begun = watchesOf(pack).find(({ begins }) => isSaid(begins, heard.text))
  if (begun) return { type: 'watchBegan', watch: begun.id, at, evidence }
  return watch && callHeard(watch, state, heard, at, evidence)
}

function callHeard(watch: Watch, state: RunState, heard: Heard, at: number, evidence: Evidence): Happening | undefined {
  const { pending } = watchState(state, watch.id)
  for (const call of watch.calls) {
    if (!call.value) {
      if (!isSaid(call.say, heard.text)) continue
      return { type: 'watchCalled', watch: watch.id, call: call.id, at, evidence }
    }
    const read = valueHeard(call, heard.text, pending?.call === call.id)
    if (read) return { type: 'watchCalled', watch: watch.id, call: call.id, at, evidence, ...read }
  }
  return undefined
}

/** The call with its value, or without it; where only the value was asked for, the value alone. */
function valueHeard(
  { say, value }: WatchCall,
  text: string,
  isPending: boolean,
): Partial<Extract<Happening, { type: 'watchCalled' }>> | undefined {
  if (!value) return undefined
  const { spec, min, max } = value
  const figure = { ...spec, value: min, accept: { min, max } } as Figure
  const ways = isPending ? [say, VALUE_ALONE] : [say]
  for (const response of ways) {
    const { verdict, parts } = judge({ response, figures: { value: figure }, heard: text })
    const said = parts.find(({ name }) => name === 'value')
    const hasWords = parts.every(({ name, state }) => name === 'value' || state === 'ok')
    if (!hasWords || (verdict !== 'correct' && verdict !== 'negative' && verdict !== 'incomplete')) continue
    if (said?.read !== undefined) return { value: said.read, inRange: verdict === 'correct' }
    if (verdict === 'incomplete' && parts.some(({ name }) => name !== 'value')) return {}
  }
  return undefined
}

/** A tick of one step by its own words, or of the whole flow; a wish to have the steps read out. */
export function flowHeard(flow: Flow, state: RunState, heard: Heard, evidence: Evidence): Happening | undefined {
  if (heard.doubt) return undefined
  const open = openSteps(flow, state)
  const said = open.find(({ say }) => say && isSaid(say, heard.text))
  if (said) return { type: 'stepDone', step: said.id, evidence }
  const isReading = state.readingFlow && open[0] !== undefined
  if (isReading && isSaid(STEP_DONE, heard.text)) return { type: 'stepDone', step: open[0]?.id ?? '', evidence }
  if (isSaid(FLOW_DONE, heard.text)) return { type: 'flowClosed', flow: flow.id, evidence }
  if (isSaid(READ_OUT, heard.text)) return { type: 'flowAsked', flow: flow.id, evidence }
  return undefined
}

/** "Icing conditions": a situation by the pack's own words for it, where it is another one now. */
export function situationHeard(pack: Pack, state: RunState, heard: Heard, evidence: Evidence): Happening | undefined {
  if (heard.doubt) return undefined
  for (const { name, options } of pack.situations) {
    const option = options.find(({ say }) => isSaid(say, heard.text))
    if (option && state.situation[name] !== option.value) {
      return { type: 'situationSet', name, value: option.value, evidence }
    }
  }
  return undefined
}
