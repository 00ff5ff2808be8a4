/** An answer to the open item: judged against the figures of this moment, or found to be something else. */

import { hasAnswerShape } from '../hearing/answerShape.ts'
import type { Specs } from '../kinds/kind.ts'
import type { Item } from '../pack/checklist.ts'
import { findItem, judgedFor, responseOf, saidFigures } from '../pack/place.ts'
import { specsOf } from '../pack/specs.ts'
import { isNotApplicable, readCommand } from '../response/commands.ts'
import { completenessOf } from '../response/completeness.ts'
import { judge } from '../response/judge.ts'
import type { Judgement } from '../response/model.ts'
import type { EventBody } from '../run/core/events.ts'
import { itemState, missingNames, restedOn } from '../run/core/progress.ts'
import { isUnchallenged } from '../run/partner/seat.ts'
import { decision, situation } from './announcements.ts'
import { withCauses } from './causes.ts'
import { commanded, spokenNames } from './command.ts'
import { isHalfOther, overheard, type Utterance } from './utterance.ts'

/** Undefined where no item is open; elsewhere something comes of whatever was said. */
export function answer(utterance: Utterance): EventBody | undefined {
  const { pack, state, heard, evidence } = utterance
  const item = openItem(utterance)
  if (!item) return undefined
  // Said of a valve it does not mean that the valve is open.
  const asked = readCommand(utterance.said.heard, spokenNames(utterance.pack))
  if (asked?.command === 'leaveOpen' && heard.doubt === undefined) return commanded(asked, utterance)
  if (item.optional && heard.doubt === undefined && isNotApplicable(utterance.said.heard)) {
    return commanded({ command: 'pass', argument: 'notApplicable' }, utterance)
  }
  const decided = item.decides && heard.doubt === undefined ? decision(utterance, item.decides) : undefined
  if (decided) return decided
  const said = judgeAnswer(utterance, item)
  // Which way a question was answered is known, or it was not answered.
  const judged = item.decides && said.verdict !== 'command' ? notUnderstood(said.parts) : said
  // "Checked" has not the shape of a value, and is said to one all the same.
  const isAnswer = judged.verdict === 'command' || judged.because === 'valueless' || isAnswerShaped(utterance, item)
  const isDoubted = heard.doubt !== undefined || !isAnswer
  const judgement = withCauses(pack, state, isDoubted ? notUnderstood(judged.parts) : judged, utterance.said.heard)
  if (judgement.verdict === 'command' && judgement.command) {
    const { command, argument } = judgement
    return commanded({ command, ...(argument !== undefined && { argument }) }, utterance) ?? overheard(utterance)
  }
  const changed = judgement.verdict === 'correct' || heard.doubt ? undefined : situation(utterance)
  if (changed) return changed
  if (isUnchallenged(pack, state, item)) {
    const isMeant = heard.by !== 'voice' || (heard.doubt === undefined && judgement.verdict !== 'sayAgain')
    return { ...overheard(utterance), ...(isMeant && { unchallenged: true }) }
  }
  if (isTalkedOn(utterance, item) || isOtherSpeech(utterance, item, judgement)) return overheard(utterance)
  const expected = restedOn(item, state)
  const { challengeRevision } = itemState(state, item.id)
  return { type: 'answered', item: item.id, evidence, judgement, expected, challengeRevision, revision: state.revision }
}

/** An answer whose first word the ear may have missed is not judged. */
export function cutAnswer(utterance: Utterance): EventBody | undefined {
  const item = openItem(utterance)
  if (!item) return undefined
  if (isTalkedOn(utterance, item)) return overheard(utterance)
  return { type: 'voided', item: item.id, evidence: utterance.evidence, because: 'onsetCut' }
}

/** The item that is open. */
export function openItem({ pack, state: { floor } }: Utterance): Item | undefined {
  return floor.at === 'item' ? findItem(pack, floor.item).item : undefined
}

/** What is not like an answer is asked for again once: whoever talks on does not mean Otherseat. */
function isTalkedOn(utterance: Utterance, item: Item): boolean {
  const isLikeAnswer = isAnswerShaped(utterance, item) && !isHalfOther(utterance)
  return !isLikeAnswer && itemState(utterance.state, item.id).sayAgains > 0
}

/** What an answer to this item would be worth. */
export function judgeAnswer({ pack, state, heard, said: all, opening, rest }: Utterance, item: Item): Judgement {
  // What was said before it on this item did not stand: what follows takes its place.
  const said = opening === 'correction' && rest.heard.tokens.length > 0 ? rest : all
  const names = saidFigures(item, state)
  const figures = judgedFor(pack, state.values, names)
  const spoken = spokenNames(pack)
  // An item whose figure has no value cannot be answered right, whatever is said.
  if (missingNames(pack, state, item).length > 0) {
    const command = readCommand(said.heard, spoken)
    return command ? { verdict: 'command', parts: [], ...command } : notUnderstood([])
  }
  const { partsSoFar, begun, implausible } = itemState(state, item.id)
  return judge({
    ...said,
    ...spoken,
    challenge: item.challenge,
    response: responseOf(item, state),
    figures,
    phraseology: state.settings.phraseology,
    held: partsSoFar,
    begun,
    implausibleBefore: implausible,
    isTyped: heard.by === 'typed',
    ...(item.states && { states: item.states }),
    ...(item.partStates && { partStates: item.partStates }),
  })
}

/** What the ear does not stand by, or nobody answers so, is never right, wrong or a command. */
const notUnderstood = (parts: Judgement['parts']): Judgement => ({
  verdict: 'sayAgain',
  because: 'notUnderstood',
  parts,
})

const specsFor = ({ pack, state }: Utterance, item: Item): Specs => specsOf(pack, saidFigures(item, state))

/** Typed words are meant for the item whatever they look like. */
function isAnswerShaped(utterance: Utterance, item: Item): boolean {
  const { by, text } = utterance.heard
  return by !== 'voice' || hasAnswerShape(Object.values(specsFor(utterance, item)), item.challenge, text)
}

/** Other speech in the room draws no reaction: nothing in it has the form of an answer to the item. */
function isOtherSpeech(utterance: Utterance, item: Item, { verdict, because }: Judgement): boolean {
  const { state, heard, said } = utterance
  if (heard.by !== 'voice' || verdict !== 'sayAgain' || because !== 'notUnderstood') return false
  const { challenge, states } = item
  const response = responseOf(item, state)
  return completenessOf(response, specsFor(utterance, item), said.heard.tokens, { challenge, states }) === 'none'
}
