/** What the pilot says to a partner who errs: an objection, a challenge where the roles are changed, a word for whoever interrupts. */

import { TO_WHOEVER } from '../hearing/objections.ts'
import { phrase } from '../hearing/phrases.ts'
import type { Value } from '../kinds/kind.ts'
import { isSameValue } from '../kinds/table.ts'
import { type Transcript, textOf, transcriptOf } from '../numbers/tokens.ts'
import type { Item } from '../pack/checklist.ts'
import type { Element } from '../pack/exchange.ts'
import { findItem, itemsOf, listsOf } from '../pack/place.ts'
import { HESITATIONS } from '../response/lexicon.ts'
import type { Judgement } from '../response/model.ts'
import { readOff } from '../response/readOff.ts'
import type { EventBody } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { radioBreath } from '../run/partner/breath.ts'
import { figuresMeant, meantBy } from '../run/partner/meant.ts'
import type { Chance, ObjectionTo } from '../run/partner/model.ts'
import { slippedTurn } from '../run/partner/objecting.ts'
import {
  answeredLast,
  colleagueReadsBack,
  openBreak,
  partnerOf,
  pilotChallenges,
  hasPartner as runHasPartner,
} from '../run/partner/partner.ts'
import { challengeable } from '../run/partner/roles.ts'
import { findTurn, talkAt } from '../run/talk/talk.ts'
import { AGREED_FIRST, agreementTakenOff, isAgreement, isCompletion } from './agreed.ts'
import { judgeAnswer, openItem } from './answer.ts'
import type { Applies } from './conditions.ts'
import {
  doubtedName,
  goneByName,
  isDoubt,
  isNotComplete,
  isNotForUs,
  type Point,
  withoutAttention,
} from './disputed.ts'
import { pointIn, pointsIn } from './pointIn.ts'
import { leftOutIn, otherReadBack, readBackNamed } from './radioObjection.ts'
import { meantByName } from './shortName.ts'
import type { Utterance } from './utterance.ts'

export const hasPartner: Applies = ({ state }) => runHasPartner(state)

/** Words without hesitations, as phrases are compared. */
function plain(heard: Transcript): string {
  const tokens = heard.tokens.filter(({ text }) => !HESITATIONS.has(text))
  return phrase(textOf({ ...heard, tokens }))
}

/** What was said, without words for attention. */
const attended = ({ said }: Utterance) => withoutAttention(textOf(said.heard))

/** The first word for whoever came in ends the interruption. */
export function breakOver({ state, said, evidence }: Utterance): EventBody | undefined {
  const open = openBreak(state)
  if (!open || open.overAt !== undefined) return undefined
  return TO_WHOEVER.some((words) => words === plain(said.heard)) ? { type: 'breakOver', evidence } : undefined
}

/** Undefined where it could be about nothing that was said, or where it is an answer to the open item. */
export function objection(utterance: Utterance): EventBody | undefined {
  const { pack, state, evidence } = utterance
  const { answered } = partnerOf(state)
  const item = openItem(utterance)
  // A full answer to the item wins, but for one that Otherseat has answered.
  if (item && answered !== item.id && judgeAnswer(utterance, item).verdict === 'correct') return undefined
  const found = objectionIn(utterance, attended(utterance)) ?? contradiction(utterance, item)
  if (!found) return undefined
  const meant = slipMeant(utterance, found)
  const { to, about, elements } = meant
  // The station waits for what it should be: that is read with its own values.
  const slipped = slippedTurn(pack, state)
  const isOther = meant.chance !== undefined && partnerOf(state).chances[meant.chance]?.about !== slipped
  if (to === 'value' && slipped !== undefined && !isOther && !colleagueReadsBack(state)) return undefined
  const chance = meant.chance ?? meantBy(pack, state, to, about)
  if (chance !== undefined) return { type: 'objected', to, chance, ...(elements && { elements }), evidence }
  if (to === 'value') return undefined
  if (to !== 'any') return { type: 'objected', to, evidence }
  const own = answeredLast(pack, state)
  return own === undefined ? undefined : { type: 'objected', to, item: own, evidence }
}

/** What would be wrong as an answer speaks against the one that Otherseat has given: "the pumps aren't all on". */
function contradiction(utterance: Utterance, item: Item | undefined): Found | undefined {
  if (!item || partnerOf(utterance.state).answered !== item.id) return undefined
  const { verdict, parts } = judgeAnswer(utterance, item)
  // A value is read as such, or is none.
  const isOfStates = !parts.some(({ kind }) => kind === 'figure')
  return verdict === 'negative' && isOfStates ? { to: 'any' } : undefined
}

/** Where a colleague reads back, an objection to the element that the controller has just said otherwise is one to that. */
function slipMeant({ pack, state }: Utterance, found: Found): Found {
  const slipped = colleagueReadsBack(state) ? slippedTurn(pack, state) : undefined
  if (slipped === undefined || found.to !== 'value') return found
  const { chances } = partnerOf(state)
  const at = chances.findLastIndex(({ kind, about }) => kind === 'station' && about === slipped)
  const figure = chances[at]?.fault?.figure ?? ''
  const isOf = ({ id, readBack }: Element) =>
    found.elements?.includes(id) && Object.values(readBack ?? {}).some((one) => one.figures.includes(figure))
  return at >= 0 && findTurn(pack, slipped).turn.elements.some(isOf) ? { to: 'value', chance: at } : found
}

interface Found {
  readonly to: ObjectionTo
  readonly about?: string
  /** Where it is a read-back: its number among all chances, and the elements that are named. */
  readonly chance?: number
  readonly elements?: readonly string[]
}

function objectionIn(utterance: Utterance, text: string): Found | undefined {
  if (isNotForUs(text)) return { to: 'notForUs' }
  if (isNotComplete(text)) return { to: 'notComplete' }
  const gone = skippedIn(utterance, text)
  const skipped = gone?.about === undefined ? (leftOutIn(utterance, text) ?? gone) : gone
  if (skipped) return skipped
  // "Negative" and "no" answer what is asked.
  if (isDoubt(text) && !(utterance.state.question && /^(negative|no|nope)$/.test(text))) return { to: 'any' }
  // Of two that it could be about, it is about what was said last.
  const isRadio = radioBreath(utterance.pack, utterance.state).length > 0
  const [first, second] = isRadio ? [otherReadBack, otherValue] : [otherValue, otherReadBack]
  const value = first(utterance) ?? second(utterance)
  if (value === 'agreed') return undefined
  return value ?? checkOf(utterance, text) ?? correctionOf(utterance, text)
}

/** "You skipped beacon": by its name, or only that something was. */
function skippedIn({ pack, state }: Utterance, text: string): Found | undefined {
  const name =
    goneByName(text) ?? (/^(you|we) (have )?(just )?(skipped|missed|left out)$/.test(text) ? 'one' : undefined)
  if (name === undefined) return undefined
  if (/^(one|an item|something|a line|it)$/.test(name)) return { to: 'skipped' }
  const { floor } = state
  const all = listsOf(pack).flatMap((list) => itemsOf(list, state).map((item) => ({ item, list })))
  const open = all.filter(({ list }) => 'list' in floor && list.id === floor.list)
  const challengeOf = ({ item }: (typeof all)[number]) => item.challenge
  // By less than its whole name only in the list that is open.
  const named = all.filter(({ item }) => phrase(item.challenge) === phrase(name))
  const meant = named.length > 0 ? undefined : meantByName(open, challengeOf, name)
  const found = meant ? [meant] : named
  const gone = found.find(({ item }) => partnerOf(state).goneBy.includes(item.id))
  return found.length > 0 ? { to: 'skipped', ...(gone && { about: gone.item.id }) } : undefined
}

/** "Check the trim", "the squawk was wrong": the last read-back or answer that it can be about. */
function checkOf(utterance: Utterance, text: string): Found | undefined {
  const { pack, state } = utterance
  const name = doubtedName(text)
  if (name === undefined) return undefined
  const read = readBackNamed(utterance, name)
  if (read) return read
  const { chances } = partnerOf(state)
  const answers = [...chances.entries()].slice(-RECENT_ANSWERS).filter(([, { kind }]) => kind === 'answer')
  const found = meantByName(answers, ([, { about }]) => findItem(pack, about).item.challenge, name)
  return found && { to: 'any', chance: found[0] }
}

const RECENT_ANSWERS = 6

const putsOwnRight = ({ pack, state, opening }: Pick<Utterance, 'pack' | 'state' | 'opening'>) =>
  opening === 'correction' && pilotChallenges(state) && answeredLast(pack, state) !== undefined

/** "Correction, one three two": where the pilot challenges, it is Otherseat's answer that is put right. */
function correctionOf({ pack, state, opening }: Utterance, text: string): Found | undefined {
  if (!putsOwnRight({ pack, state, opening })) return undefined
  return challengedIn(challengeable(pack, state), text.slice(text.indexOf(' ') + 1)) ? undefined : { to: 'any' }
}

/** "Negative, five two up": a whole value of what was said last, whatever it should be. */
function otherValue(utterance: Utterance): Found | 'agreed' | undefined {
  const { pack, state } = utterance
  const at = meantBy(pack, state, 'value')
  const chance = at === undefined ? undefined : partnerOf(state).chances[at]
  if (!chance || (talkAt(pack, state.floor) && chance.kind === 'answer')) return undefined
  const read = otherRead(utterance, chance)
  if (!read) return undefined
  // Said as it was heard, it is agreed with.
  return read.lead === 'against' || !read.isAsSaid ? { to: 'value' } : 'agreed'
}

interface ReadOther {
  readonly lead: Point['lead']
  /** It is the value that was said. */
  readonly isAsSaid: boolean
}

/** Without a lead it must be said of the answer that waits for the pilot's word. */
function otherRead(utterance: Utterance, chance: Chance): ReadOther | undefined {
  const { pack, state } = utterance
  const isWaiting = pilotChallenges(state) && chance.kind === 'answer' && partnerOf(state).answered === chance.about
  const points = isWaiting ? pointsIn(utterance) : [pointIn(utterance)]
  const own = chance.kind === 'answer' ? [findItem(pack, chance.about).item.challenge] : []
  for (const { lead, rest } of points) {
    if (!lead && !isWaiting) return undefined
    for (const name of figuresMeant(pack, state, chance)) {
      const declared = pack.figures.declarations[name]
      if (!declared) continue
      const value = readOff(declared.spec, [declared.label, ...declared.alsoCalled, ...own], rest)
      if (value === undefined) continue
      const asSaid = saidIn(state, chance, name)
      return { lead, isAsSaid: asSaid !== undefined && isSameValue(declared.spec, value, asSaid) }
    }
  }
  return undefined
}

/** What a station said wrongly, or that no value was said, is no value to agree with. */
function saidIn({ values }: RunState, { fault }: Chance, figure: string): Value | undefined {
  if (fault?.figure === figure) return fault.said
  return fault?.kind === 'valueless' ? undefined : values[figure]
}

/** The challenge of an open item, alone or behind "checked": never with anything that could be its answer. */
export function challenge(utterance: Utterance): EventBody | undefined {
  const { pack, state, evidence } = utterance
  if (!pilotChallenges(state)) return undefined
  const item = challengedIn(challengeable(pack, state), attended(utterance))
  return item && { type: 'challenged', item: item.id, evidence }
}

function challengedIn(items: readonly Item[], text: string): Item | undefined {
  const rest = text.replace(AGREED_FIRST, '')
  const challengeOf = ({ challenge }: Item) => challenge
  return meantByName(items, challengeOf, text) ?? (rest === text ? undefined : meantByName(items, challengeOf, rest))
}

/** "Checked", "one two six, thanks", "that completes the list", said of the answer that Otherseat has given. */
export function accepted(utterance: Utterance): EventBody | undefined {
  const { pack, state, evidence } = utterance
  const item = openItem(utterance)
  const { answered, chances } = partnerOf(state)
  if (!item || answered !== item.id) return undefined
  const text = attended(utterance)
  const isAgreed = isAgreement(text) || isCompletion(text, findItem(pack, item.id).list.name)
  const last = chances.findLast(({ kind, about }) => kind === 'answer' && about === item.id)
  const isAgreedTo =
    isAgreed ||
    (last !== undefined && otherRead(withoutAgreement(utterance), last)?.isAsSaid === true) ||
    isSameStates(judgeAnswer(utterance, item))
  return isAgreedTo ? { type: 'accepted', item: item.id, evidence } : undefined
}

/** "All pumps on", said after it: of states alone, which Otherseat never says wrongly. */
const isSameStates = ({ verdict, parts }: Judgement): boolean =>
  verdict === 'correct' && parts.every(({ kind }) => kind !== 'figure')

/** The value that was said may stand beside "checked". */
function withoutAgreement(utterance: Utterance): Utterance {
  const { heard, alternatives } = utterance.said
  const taken = (one: Transcript) => transcriptOf(agreementTakenOff(textOf(one)))
  const said = {
    heard: taken(heard),
    ...(alternatives && { alternatives: alternatives.map((one) => ({ ...one, ...taken(one) })) }),
  }
  return { ...utterance, said }
}
