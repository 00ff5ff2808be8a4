/** The standard phrases, as they are said here and now. */

import { textOf } from '../numbers/tokens.ts'
import type { Pack } from '../pack/checklist.ts'
import { listsOf } from '../pack/place.ts'
import { type CommandNames, type ReadCommand, readCommand, reasonIn } from '../response/commands.ts'
import type { EventBody } from '../run/core/events.ts'
import { isForValue } from '../run/core/ownQuestion.ts'
import { briefingsOf, exchangesOf } from '../run/talk/talk.ts'
import type { Utterance } from './utterance.ts'

/** A standard phrase as a whole utterance; undefined where it is none, or not one for Otherseat here. */
export function command(utterance: Utterance): EventBody | undefined {
  const { pack, state, said, opening } = utterance
  if (opening === 'correction') return correction(utterance)
  const { question } = state
  // What was read off a source is asked for until it is read, or no longer wanted.
  const yesNo = question !== undefined && !isForValue(question)
  const read = readCommand(said.heard, { yesNo, ...spokenNames(pack) })
  return read && commanded(read, utterance)
}

/** "Recheck takeoff trim", wherever the run is; undefined for anything else. */
export function recheck(utterance: Utterance): EventBody | undefined {
  const event = command(utterance)
  return event?.type === 'commanded' && event.command === 'recheck' ? event : undefined
}

/** What was closed last is open again; what was said after that word answers it. */
export function correction({ evidence, rest }: Utterance): EventBody {
  return { type: 'commanded', command: 'correction', argument: textOf(rest.heard), evidence }
}

/** It answers nothing that was asked: what Otherseat said last is put once more, and the screen tells. */
export function sayAgain({ evidence }: Utterance): EventBody {
  return { type: 'commanded', command: 'sayAgain', evidence, meant: true }
}

/** Why the open item is to be passed, as the answer to "say the reason"; undefined where it is no reason. */
export function passReason({ said, evidence }: Utterance): EventBody | undefined {
  const reason = reasonIn(said.heard.tokens)
  return reason && { type: 'commanded', command: 'pass', argument: reason, evidence }
}

/** Undefined where it was not said to Otherseat. */
export function commanded({ command: name, argument }: ReadCommand, utterance: Utterance): EventBody | undefined {
  const { evidence } = utterance
  if (name === 'continue' && isRadioTalk(utterance)) return undefined
  if (name === 'call') return { type: 'listCalled', list: argument ?? '', evidence }
  return { type: 'commanded', command: name, evidence, ...(argument !== undefined && { argument }) }
}

/** "Continue" is said on the radio all day; to Otherseat it means something only where it stands by. */
const isRadioTalk = ({ state, heard }: Utterance) => heard.by === 'voice' && !state.standingBy

type SpokenNames = Required<Pick<CommandNames, 'lists' | 'items' | 'confirmable'>>

const namesOfPacks = new WeakMap<Pack, SpokenNames>()

/** Spoken names of what the pack has, for "call", "recheck" and "confirm". A pack never changes: they are made once. */
export function spokenNames(pack: Pack): SpokenNames {
  const known = namesOfPacks.get(pack)
  if (known) return known
  const names = namesOf(pack)
  namesOfPacks.set(pack, names)
  return names
}

function namesOf(pack: Pack): SpokenNames {
  const lists = listsOf(pack).map((list) => [list.id, [list.name, ...list.alsoCalled]] as const)
  const figures = Object.values(pack.figures.declarations).map((f) => [f.name, [f.label, ...f.alsoCalled]] as const)
  // Several lists may ask for the same: which one is meant follows from what was answered.
  const items = listsOf(pack).flatMap(({ entries }) =>
    entries.flatMap((entry) => (entry.type === 'item' ? [[entry.challenge, [entry.challenge]] as const] : [])),
  )
  const talks = [...briefingsOf(pack), ...exchangesOf(pack)].map(({ name }) => name)
  const turns = exchangesOf(pack).flatMap((exchange) => exchange.turns.map(({ label }) => label))
  return {
    lists: Object.fromEntries(lists),
    items: Object.fromEntries([...[...turns, ...talks].map((name) => [name, [name]] as const), ...items]),
    confirmable: Object.fromEntries(figures),
  }
}
