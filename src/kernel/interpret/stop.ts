/** "Stop": heard before everything else, wherever the run is, and what the pilot says of the brakes after it. */

import { canonOf, type Transcript, tokensOf } from '../numbers/tokens.ts'
import type { List, Pack } from '../pack/checklist.ts'
import { engineNames } from '../pack/engineNames.ts'
import { listsOf } from '../pack/place.ts'
import { isAnnounced } from '../response/announced.ts'
import { responseFrom } from '../response/response.ts'
import { isStartEnded, isStop } from '../response/stopWords.ts'
import type { EventBody } from '../run/core/events.ts'
import { runningWatch, watchesOf } from '../run/watch/watchTiming.ts'
import { isSaid } from './announcements.ts'
import { namedOtherwise, withoutEngine } from './engineNamed.ts'
import type { Utterance } from './utterance.ts'
import { isCried } from './watchCall.ts'

const BRAKES_SET = responseFrom(
  '[stopping | stopped] [the] [parking | park] (brake | brakes) [is | are] (set | on) | set | stopped',
)

/**
 * Everything is to stop; in an engine start also in the pack's own stop words: "fuel off". "Engine fire" is a call, and no
 * such cry, where the pack has a list of that name that may be called at any time.
 */
export function stop({ pack, state, said: { heard }, evidence }: Utterance): EventBody | undefined {
  const ofEngine = engineLeftOut(pack, heard)
  const urgent = [heard, ...ofEngine].map(({ tokens }) => urgentList(pack, tokens)).find((list) => list)
  if (urgent) return { type: 'listCalled', list: urgent.id, evidence }
  const running = runningWatch(pack, state)
  const own = running?.stopWords
  const isAbnormal = running?.abnormal.some(({ say }) => isAnnounced(say, heard) || isCried(say, heard)) === true
  const isEnded = running !== undefined && !isAbnormal && isStartEnded(heard.tokens)
  const isOwn = isEnded || (own !== undefined && beginsWith(heard.tokens, tokensOf(own)))
  const isTalk = state.floor.at === 'briefing'
  const isOfEngine = !isTalk && ofEngine.some(({ tokens }) => isStop(tokens))
  const isCry = isOwn || isStop(heard.tokens, isTalk) || isOfEngine || (!running && !isTalk && isFireCall(pack, heard))
  return isCry ? { type: 'commanded', command: 'stop', evidence } : undefined
}

/** "Right engine fire", "fire on number two": as if it was not said which one. A side alone names many things. */
function engineLeftOut(pack: Pack, heard: Transcript): Transcript[] {
  const watches = watchesOf(pack)
  const names = watches.flatMap((watch) => engineNames(watches, watch).full)
  const ways = namedOtherwise(heard, names, ['engine'])
  return ways.length > 0 ? [...ways, ...withoutEngine(heard, names)] : []
}

/** A fire that a start would end by: where none runs it is a fire all the same. */
const isFireCall = (pack: Pack, heard: Transcript): boolean =>
  watchesOf(pack)
    .flatMap(({ abnormal }) => abnormal)
    .some(({ say }) => say.words.has('fire') && isAnnounced(say, heard))

/** The answer to "confirm brakes set": the same as affirm. */
export function brakesSet({ said: { heard }, evidence }: Utterance): EventBody | undefined {
  return isSaid(BRAKES_SET, heard) ? { type: 'commanded', command: 'affirm', evidence } : undefined
}

/** The list that has just this name. */
function urgentList(pack: Pack, said: Words): List | undefined {
  const isName = (name: string) => canonOf(tokensOf(name)) === canonOf(said)
  return listsOf(pack).find(({ anytime, name, alsoCalled }) => anytime && [name, ...alsoCalled].some(isName))
}

type Words = Utterance['said']['heard']['tokens']
const beginsWith = (said: Words, words: Words) => words.every(({ canon }, index) => said[index]?.canon === canon)
