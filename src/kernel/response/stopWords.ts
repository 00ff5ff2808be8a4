/**
 * Whether an utterance is a cry to stop. People do not say it in one way. The word "stop" is one wherever it is no thing and
 * nobody tells of stopping; other orders ("hold the push", "abort") are one at the head of what is said, behind names,
 * politeness and alarm. Chosen on phrases that others wrote. Cries without any such word ("brakes, brakes!") are not known.
 */

import type { Token } from '../numbers/tokens.ts'

/** What may stand before the order: hesitation, politeness, alarm, who is meant and who speaks. */
const BEFORE =
  'uh|um|er|eh|ah|oh|hey|okay|ok|please|to|no|negative|correction|wait|now|sorry|hang on|hold on|whoa|just|god|my|quick|quickly|' +
  'ground|crew|cockpit|flight|deck|from|tug|driver|push|pushback|headset|captain|sir|mate|guys|everybody|everyone|all|people|' +
  'otherseat|(?:we|you) (?:must|have to|need to|better)|i need you to|somebody|someone|for (?:god|heaven)s? sake'

/** The order itself, where nothing that follows can make another thing of it. */
const ORDER =
  'stopp?|abort|halt|freeze|evacuate|mayday|knock it off|hold (?:it|everything|the (?:push|pushback|tug))|hold what|' +
  'cut (?:it|(?:the )?engines?)|shut (?:it|(?:the )?engines?) down|shut down now|whoa whoa|break off'

/** Names of things, of speeds and of what a controller may clear: "stop bars are lit", "stop climb at six thousand". */
const THINGS =
  'bars?|way|distance|margin|procedures?|briefing|point|over|lights?|watch|selector|switch|lever|position|sign|line|words?|' +
  'speed|button|is|was|set|checked|at|abeam|climb|climbing|descent|descending|short'

/** Only as all that is said: a list may have lights, exits and tests of that name. */
const ALONE =
  '(?:emergency|fire)(?: (?:emergency|fire|stop|now))*|engine fire(?: engine fire)*|cut ?off cut ?off(?: cut ?off)*'

const HEAD = new RegExp(`^(?:(?:${BEFORE}) )*(?:${ORDER})\\b(?! (?:${THINGS})\\b)`)
const TELLS = '(?:we|i) (?:have|see|got)|(?:we|i)ve got|there is|theres'
const WHOLE = new RegExp(`^(?:(?:${BEFORE}) )*(?:(?:${TELLS}) (?:an? )?)?(?:${ALONE})$`)
/** An order and what is to stop. */
const SHORT = new RegExp(
  `^(?:(?:${BEFORE}) )*(?:${ORDER})(?: (?:${ORDER}|the|this|that|it|now|immediately|please|everything|start|engine|engines|pushing|taxi|push|pushback|back))*$`,
)
/**
 * "Stop" itself is one wherever it stands: one too many costs a word, one too few an aircraft. Not where somebody tells of
 * stopping, forbids it, or names a thing.
 */
const TOLD =
  'not|dont|wont|cant|cannot|never|if|unless|when|whenever|case|until|before|after|once|would|will|without|unable|' +
  'call|calls|called|say|says|calling|decide|decision|able|expect'
const TELLING = new RegExp(`\\b(?:${TOLD})\\b.*\\bstop\\b`)
const AS_A_THING = new RegExp(
  `\\b(?:we|they|i|non|full|the|a|an|one|last|next|first|short|fuel|to|of|at|accelerate|speedbrake|taxi|pit|tech|each|any|no) stop\\b|\\bstop (?:${THINGS})\\b`,
)
const isWordOfStop = (said: string) => /\bstop\b/.test(said) && !TELLING.test(said) && !AS_A_THING.test(said)

/** Said over and over it is an order wherever it stands. */
const REPEATED = /\b(?:stop stop|abort abort|emergency emergency)\b/
/** A call sign may stand first. */
const NUMBERED =
  /^(?:[a-z]+ ){1,2}(?:(?:zero|one|two|three|four|five|six|seven|eight|nine|niner|fife|tree|fower|\d+) ){2,}/

/** Never throws. `isTalk`: where people talk of stopping, as in a briefing, only an order that is all that is said is one. */
export function isStop(tokens: readonly Token[], isTalk = false): boolean {
  const text = tokens.map((token) => token.text.replaceAll("'", '')).join(' ')
  const said = text.replace(NUMBERED, '')
  if (WHOLE.test(said)) return true
  if (isTalk) return SHORT.test(said)
  return HEAD.test(said) || REPEATED.test(said) || isWordOfStop(said)
}

const START_ENDED =
  /\b(?:fuel (?:is )?(?:cut ?)?off|cutting (?:the )?fuel|abort(?:ed|ing)?|discontinu(?:e|ed|ing)|stopp(?:ed|ing) the start|start (?:is )?stopped)\b/

/** In an engine start: told rather than ordered, it ends it all the same. */
export const isStartEnded = (tokens: readonly Token[]): boolean =>
  START_ENDED.test(tokens.map(({ text }) => text).join(' '))
