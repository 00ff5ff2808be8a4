/**
 * What an utterance means where the run is: pack, state and words in, one event out. Typed, spoken and read from a file
 * go the same way, on the page, on the command line and in benchmarks.
 */

import type { Heard } from '../hearing/heard.ts'
import type { Pack } from '../pack/checklist.ts'
import type { EventBody } from '../run/core/events.ts'
import { canWait } from '../run/core/forRoom.ts'
import type { RunState } from '../run/core/state.ts'
import { RULES } from './rules.ts'
import { overheard, restAsHeard, utteranceOf } from './utterance.ts'

export interface Interpretation {
  readonly event: EventBody
  /** "Correction, five point two": the event opens the item before again, and this, still to be interpreted, answers it. */
  readonly rest?: Heard
}

/**
 * The first rule that applies and makes something of the utterance decides; where none does, the screen says so. Throws
 * where the state names a place that the pack does not have.
 */
export function interpret(pack: Pack, state: RunState, heard: Heard): Interpretation {
  const utterance = utteranceOf(pack, state, heard)
  for (const { applies, read } of RULES) {
    const event = applies(utterance) ? read(utterance) : undefined
    if (event && isForTheRoom(state, heard, event)) return { event: { type: 'frozen', said: utterance.evidence } }
    if (event) return { event, ...(isCorrection(event) && { rest: restAsHeard(utterance) }) }
  }
  return { event: { ...overheard(utterance), ...(heard.doubt === undefined && { meant: true }) } }
}

const isCorrection = (event: EventBody): boolean =>
  event.type === 'commanded' && event.command === 'correction' && Boolean(event.argument)

/** The room is asked first what it would say. What the ear does not stand by is nothing to be asked about. */
const isForTheRoom = ({ demonstration, frozen }: RunState, { doubt }: Heard, { type }: EventBody): boolean =>
  demonstration?.asksRoom === true && frozen?.said === undefined && doubt === undefined && canWait(type)
