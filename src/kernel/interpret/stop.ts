/** "Stop": heard before everything else, wherever the run is, and what the pilot says of the brakes after it. */

import { canonOf, tokensOf } from '../numbers/tokens.ts'
import type { List, Pack } from '../pack/checklist.ts'
import { listsOf } from '../pack/place.ts'
import { responseFrom } from '../response/response.ts'
import { isStop } from '../response/stopWords.ts'
import type { EventBody } from '../run/core/events.ts'
import { runningWatch } from '../run/watch/watchTiming.ts'
import { isSaid } from './announcements.ts'
import type { Utterance } from './utterance.ts'

const BRAKES_SET = responseFrom('[parking] (brake | brakes) [is | are] set | set')

/**
 * Everything is to stop; in an engine start also in the pack's own stop words: "fuel off". "Engine fire" is a call, and no
 * such cry, where the pack has a list of that name that may be called at any time.
 */
export function stop({ pack, state, said: { heard }, evidence }: Utterance): EventBody | undefined {
  const urgent = urgentList(pack, heard.tokens)
  if (urgent) return { type: 'listCalled', list: urgent.id, evidence }
  const own = runningWatch(pack, state)?.stopWords
  const isOwn = own !== undefined && beginsWith(heard.tokens, tokensOf(own))
  const isCry = isOwn || isStop(heard.tokens, state.floor.at === 'briefing')
  return isCry ? { type: 'commanded', command: 'stop', evidence } : undefined
}

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
