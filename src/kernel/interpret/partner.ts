/** What the pilot says to a partner who errs: an objection, a challenge where the roles are changed, a word for whoever interrupts. */

import { ACCEPTED, DOUBTS, INSTEAD, NOT_COMPLETE, NOT_FOR_US, SKIPPED, TO_WHOEVER } from '../hearing/objections.ts'
import { phrase } from '../hearing/phrases.ts'
import { type Transcript, textOf } from '../numbers/tokens.ts'
import type { Item } from '../pack/checklist.ts'
import { findItem, itemsOf, listsOf } from '../pack/place.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import { HESITATIONS } from '../response/lexicon.ts'
import { readOff } from '../response/readOff.ts'
import type { EventBody } from '../run/core/events.ts'
import { radioBreath } from '../run/partner/breath.ts'
import { figuresMeant, meantBy } from '../run/partner/meant.ts'
import type { ObjectionTo } from '../run/partner/model.ts'
import { slippedTurn } from '../run/partner/objecting.ts'
import {
  answeredLast,
  openBreak,
  partnerOf,
  pilotChallenges,
  hasPartner as runHasPartner,
} from '../run/partner/partner.ts'
import { challengeable } from '../run/partner/roles.ts'
import { talkAt } from '../run/talk/talk.ts'
import { judgeAnswer, openItem } from './answer.ts'
import type { Applies } from './conditions.ts'
import { leftOutIn, otherReadBack } from './radioObjection.ts'
import type { Utterance } from './utterance.ts'

export const hasPartner: Applies = ({ state }) => runHasPartner(state)

/** Words without hesitations, as phrases are compared. */
function plain(heard: Transcript): string {
  const tokens = heard.tokens.filter(({ text }) => !HESITATIONS.has(text))
  return phrase(textOf({ ...heard, tokens }))
}

const isOneOf = (phrases: readonly string[], text: string) => phrases.includes(text)

/** The first word for whoever came in ends the interruption. */
export function breakOver({ state, said, evidence }: Utterance): EventBody | undefined {
  const open = openBreak(state)
  if (!open || open.overAt !== undefined) return undefined
  return isOneOf(TO_WHOEVER, plain(said.heard)) ? { type: 'breakOver', evidence } : undefined
}

/** Undefined where it could be about nothing that was said, or where it is an answer to the open item. */
export function objection(utterance: Utterance): EventBody | undefined {
  const { pack, state, said, evidence } = utterance
  const { answered } = partnerOf(state)
  const item = openItem(utterance)
  // A full answer to the item wins, but for one that Otherseat has answered.
  if (item && answered !== item.id && judgeAnswer(utterance, item).verdict === 'correct') return undefined
  const found = objectionIn(utterance, plain(said.heard))
  if (!found) return undefined
  const { to, about, elements } = found
  // The station waits for what it should be: that is read with its own values.
  const isOther =
    found.chance !== undefined && partnerOf(state).chances[found.chance]?.about !== slippedTurn(pack, state)
  if (to === 'value' && slippedTurn(pack, state) !== undefined && !isOther) return undefined
  const chance = found.chance ?? meantBy(pack, state, to, about)
  if (chance !== undefined) return { type: 'objected', to, chance, ...(elements && { elements }), evidence }
  if (to === 'value') return undefined
  if (to !== 'any') return { type: 'objected', to, evidence }
  const own = answeredLast(pack, state)
  return own === undefined ? undefined : { type: 'objected', to, item: own, evidence }
}

interface Found {
  readonly to: ObjectionTo
  readonly about?: string
  /** Where it is a read-back: its number among all chances, and the elements that are named. */
  readonly chance?: number
  readonly elements?: readonly string[]
}

function objectionIn(utterance: Utterance, text: string): Found | undefined {
  if (isOneOf(NOT_FOR_US, text)) return { to: 'notForUs' }
  if (isOneOf(NOT_COMPLETE, text) || / (list|checklist) (is )?not complete$/.test(text)) return { to: 'notComplete' }
  const gone = skippedIn(utterance, text)
  const skipped = gone?.about === undefined ? (leftOutIn(utterance, text) ?? gone) : gone
  if (skipped) return skipped
  if (isOneOf(DOUBTS, text) && !(text === 'negative' && utterance.state.question)) return { to: 'any' }
  // Of two that it could be about, it is about what was said last.
  const isRadio = radioBreath(utterance.pack, utterance.state).length > 0
  const [first, second] = isRadio ? [otherReadBack, otherValue] : [otherValue, otherReadBack]
  return first(utterance, text) ?? second(utterance, text) ?? correctionOf(utterance, text)
}

/** "You skipped beacon": by its challenge, or only that something was. */
function skippedIn({ pack, state }: Utterance, text: string): Found | undefined {
  const lead = SKIPPED.find((words) => text.startsWith(`${words} `) || text === words)
  if (lead === undefined) return undefined
  const name = text.slice(lead.length).trim().replace(/^the /, '')
  if (/^(one|an item|something|a line)$/.test(name) || (name === '' && lead !== 'what about')) return { to: 'skipped' }
  const named = listsOf(pack)
    .flatMap((list) => itemsOf(list, state))
    .filter(({ challenge }) => phrase(challenge) === name)
  const gone = named.find(({ id }) => partnerOf(state).goneBy.includes(id))
  return named.length > 0 ? { to: 'skipped', ...(gone && { about: gone.id }) } : undefined
}

const putsOwnRight = ({ pack, state, opening }: Pick<Utterance, 'pack' | 'state' | 'opening'>) =>
  opening === 'correction' && pilotChallenges(state) && answeredLast(pack, state) !== undefined

/** "Correction, one three two": where the pilot challenges, it is Otherseat's answer that is put right. */
function correctionOf({ pack, state, opening }: Utterance, text: string): Found | undefined {
  if (!putsOwnRight({ pack, state, opening })) return undefined
  return challengedIn(challengeable(pack, state), text.slice(text.indexOf(' ') + 1)) ? undefined : { to: 'any' }
}

/** "Negative, five two up": a whole value of what was said last, whatever it should be. */
function otherValue(utterance: Utterance, text: string): Found | undefined {
  const { pack, state, said } = utterance
  const leads = putsOwnRight(utterance) ? [...INSTEAD, 'correction'] : INSTEAD
  const lead = leads.find((words) => text.startsWith(`${words} `))
  const at = lead === undefined ? undefined : meantBy(pack, state, 'value')
  const chance = at === undefined ? undefined : partnerOf(state).chances[at]
  if (lead === undefined || !chance || (talkAt(pack, state.floor) && chance.kind === 'answer')) return undefined
  const count = lead.split(' ').length
  const rest = ofAll(said, (one) => {
    const from = one.tokens.findIndex(({ text: word }) => word === lead.split(' ')[0])
    return { ...one, tokens: one.tokens.slice(from + count) }
  })
  const isValue = figuresMeant(pack, state, chance).some((name) => {
    const declared = pack.figures.declarations[name]
    const own = chance.kind === 'answer' ? [findItem(pack, chance.about).item.challenge] : []
    return (
      declared &&
      readOff(declared.spec, [declared.label, ...declared.alsoCalled, ...own, 'that is', 'it is'], rest) !== undefined
    )
  })
  return isValue ? { to: 'value' } : undefined
}

const ofAll = (all: Hypotheses, change: <T extends Transcript>(one: T) => T): Hypotheses => ({
  heard: change(all.heard),
  ...(all.alternatives && { alternatives: all.alternatives.map(change) }),
})

/** The challenge of an open item, alone or behind "checked": never with anything that could be its answer. */
export function challenge({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  if (!pilotChallenges(state)) return undefined
  const item = challengedIn(challengeable(pack, state), plain(said.heard))
  return item && { type: 'challenged', item: item.id, evidence }
}

function challengedIn(items: readonly Item[], text: string): Item | undefined {
  const lead = ACCEPTED.find((words) => text.startsWith(`${words} `))
  const rest = lead === undefined ? text : text.slice(lead.length).trim()
  return items.find((item) => {
    const name = phrase(item.challenge)
    return name === text || name === rest
  })
}

/** "Checked", said of the answer that Otherseat has given. */
export function accepted(utterance: Utterance): EventBody | undefined {
  const { state, said, evidence } = utterance
  const item = openItem(utterance)
  if (!item || partnerOf(state).answered !== item.id) return undefined
  return isOneOf(ACCEPTED, plain(said.heard)) ? { type: 'accepted', item: item.id, evidence } : undefined
}
