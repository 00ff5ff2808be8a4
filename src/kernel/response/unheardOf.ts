/** Whether a word of a remark is known to be harmless where it stands. What nobody has heard of is asked about. */

import { isAct, isElsewhere, isSuspect, isTouching } from './clauses.ts'
import { isPreposition } from './foreignStates.ts'
import type { Frame } from './frame.ts'
import { isStateWord } from './lexicon.ts'
import {
  ALL,
  BEFORE_VALUE,
  COUNTED,
  COUNTED_THINGS,
  isSide,
  LIMITS,
  NEVER_WELCOME,
  OF_CALLS,
  OTHER_THINGS,
  PASSING,
  REMARKS,
  SIDES,
  SIGNS,
} from './remarkWords.ts'
import { type Atom, beforeArticle, isPlain, wordOf } from './scan.ts'

export function isUnheardOf(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const atom = atoms[at]
  if (atom?.type !== 'unknown' || atom.amount) return false
  const word = atom.token.text
  if (isElsewhere(atoms, at)) return false
  if (isTrailing(frame, atoms, at) || isAboard(frame, atoms, at)) return false
  if (PREPOSITIONS.has(word))
    return !isLeading(frame, word, atoms[at + 1]) && !isOfOnlyValues(frame, atoms, at) && !isOfAsked(frame, word)
  if (word === 'ready') return !isReadyBeside(frame, atoms, at)
  if (word === 'will' || word === 'going') return !isOwnAhead(frame, atoms, at)
  // "I've left both open."
  if (word === 'left' && HAVING.has(wordOf(atoms[at - 1]))) return false
  if (isSide(word)) return !isPairSaid(atoms, word) && !isPlace(frame, atoms, at) && !isOnlyOne(frame, atoms, word)
  if (NEVER_WELCOME.has(word) || ALL.has(word) || COUNTED.has(word) || COUNTED_THINGS.has(word)) return false
  if (word === 'mode' || wordOf(atoms[at - 1]) === 'mode') return frame.figureCount === 0
  if (word.length === 1) return !isAbbreviation(atoms, at)
  if (BEFORE_VALUE.has(word) && atoms.slice(at + 1).find(({ type }) => type !== 'harmless')?.type === 'run')
    return false
  if (LIMITS.has(word)) return [at - 1, at - 2].some((before) => LINKS.has(wordOf(atoms[before])))
  if (OF_CALLS.has(word)) return !frame.isUnasked
  if (word === 'pulled') return !frame.harmless.has('brake')
  if (word === 'flashing') return !frame.harmless.has('beacon') && !frame.harmless.has('strobe')
  if (PASSING.has(word) && frame.isUnasked && frame.figureCount > 0) return false
  if (SIGNS.some((sign) => sign.has(word)) && frame.harmless.has('signs')) return false
  if (OTHER_THINGS.has(word)) return frame.figureCount === 0 && isSaidOf(frame, atoms, at)
  return !isHarmlessName(frame, word) && (isTouching(atoms, at) || isAct(atoms, at) || isSuspect(word))
}

const isHarmlessName = (frame: Frame, word: string) =>
  REMARKS.has(word) || frame.initials.has(word) || frame.harmless.has(word)

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/))

const PREPOSITIONS = words('on off in out up down')
/** "On the gauge", "in both", "in the green". */
const LEADS = words(
  'the both our my his her there here it line sight view hand this that each idle green place order position',
)
const isLeading = (frame: Frame, word: string, next: Atom | undefined) =>
  (LEADS.has(wordOf(next)) && word !== 'down') ||
  // "In standby", of one of several values.
  (frame.figureCount > 1 && next?.type === 'phrase' && (word === 'in' || word === 'on')) ||
  // "In idle", "on takeoff".
  (frame.figureCount === 0 && next?.type === 'phrase' && next.known.type === 'own' && (word === 'in' || word === 'on'))
/** After these they are harmless: "bugs up", "called up", "strapped in", "engines running". */
const TRAILS: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ['running', words('engine engines')],
  ['up', words('bugs bugged bug coming called lined came comes brought thumbs popped pops queued')],
  [
    'in',
    words('strapped plugged typed dialled dialed punched keyed bugs code squawk put buckled belted locked swapped'),
  ],
  ['down', words('cooled written copied sat strapped')],
  ['out', words('lights light')],
])
function isTrailing(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const before = LINKS.has(wordOf(atoms[at - 1])) ? at - 2 : at - 1
  // "Released, the light is out", and not "set".
  const isOff = frame.own.has('released') || frame.own.has('disconnected') || frame.own.has('off')
  if (wordOf(atoms[at]) === 'out' && wordOf(atoms[before]) === 'light' && !isOff) return false
  return TRAILS.get(wordOf(atoms[at]))?.has(wordOf(atoms[before])) === true
}
function isPairSaid(atoms: readonly Atom[], word: string): boolean {
  const said = new Set(atoms.filter(isPlain).map(wordOf))
  const pair = SIDES.find((sides) => sides.some((side) => side.has(word)))
  return pair?.every((side) => [...side].some((one) => said.has(one))) === true
}

const HAVING = words("i i've we we've have had")
const HANDS = words('left right port starboard')
const tokensIn = (atom: Atom) => ('token' in atom ? [atom.token] : atom.tokens)

/** "The left one is on" to `both on`: told to be only one of them. */
const isOnlyOne = (frame: Frame, atoms: readonly Atom[], word: string) =>
  frame.ofSeveral &&
  (frame.figureCount === 0 || HANDS.has(word)) &&
  !atoms.some((atom) => tokensIn(atom).some(({ text }) => ALL.has(text)))

/** "Thumbs up on the left": where something was seen. */
function isPlace(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (frame.ofSeveral || frame.figureCount > 0) return false
  const before = beforeArticle(atoms, at)
  const isLead = PLACING.has(wordOf(atoms[before])) && (isPlain(atoms[before]) || isPreposition(atoms, before))
  return isLead && (isPlain(atoms[before - 1]) || isPreposition(atoms, before - 1))
}
const PLACING = words('on to off from at')

/**
 * "Probe heat on", "on probe heat": the item's own words right after or before another thing's name are said of that,
 * unless they were said of the item before: "off, bleed off too".
 */
function isSaidOf(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (frame.harmless.has(wordOf(atoms[at])) || isListed(atoms)) return false
  const isOwn = (atom: Atom | undefined) => atom?.type === 'phrase' && atom.known.type === 'own'
  let next = at + 1
  while (OTHER_THINGS.has(wordOf(atoms[next])) || BETWEEN.has(wordOf(atoms[next]))) next++
  if (isOwn(atoms[next])) return !atoms.slice(0, at).some((atom) => isOwn(atom) && isState(atom))
  // "Released on the tug".
  if (wordOf(atoms[at - 2]) === 'on' && isOwn(atoms[at - 3])) return true
  return isOwn(atoms[beforeArticle(atoms, at)]) && !AS_IT_SHOULD_BE.has(wordOf(atoms[next]))
}
/** "Ailerons, elevators and the rudder": what the item is made of, one by one. */
const isListed = (atoms: readonly Atom[]) => atoms.filter((atom) => OTHER_THINGS.has(wordOf(atom))).length > 2
const isState = (atom: Atom) => tokensIn(atom).some(({ text }) => isStateWord(text) && !ALL.has(text))
const LINKS = words('is are')
const BETWEEN = words('is are now heat anti ice door doors valve valves')
const AS_IT_SHOULD_BE = words(
  'ready confirmed reported called already went pulled drove driven good normal fine ok okay steady stable green checked too also look looks both all',
)

/** "R P M": letters said one by one. */
function isAbbreviation(atoms: readonly Atom[], at: number): boolean {
  const isLetter = (atom: Atom | undefined) => /^[a-uw-z]$/.test(wordOf(atom)) && isPlain(atom)
  return isLetter(atoms[at - 1]) || isLetter(atoms[at + 1])
}

const ABOARD = words('board gauges gauge standby')

/** "Mode c is on", "put it in five": beside nothing but values a thing may be on. */
const isOfOnlyValues = (frame: Frame, atoms: readonly Atom[], at: number) =>
  frame.figureCount > 0 &&
  !frame.path.some(({ type, required }) => type === 'word' && required) &&
  ((wordOf(atoms[at]) === 'on' && (LINKS.has(wordOf(atoms[at - 1])) || ABOARD.has(wordOf(atoms[at + 1])))) ||
    (wordOf(atoms[at]) === 'in' && (atoms[at + 1]?.type === 'run' || LINKS.has(wordOf(atoms[at - 1])))))

/** "Six four eighty on board", of a fuel. */
const isAboard = (frame: Frame, atoms: readonly Atom[], at: number) =>
  frame.figureCount > 0 &&
  wordOf(atoms[at]) === 'board' &&
  wordOf(atoms[at - 1]) === 'on' &&
  atoms[at - 2]?.type === 'run'

/** "Off at one four three seven" to "Off blocks?". */
const isOfAsked = (frame: Frame, word: string) => frame.figureCount > 0 && frame.asked.has(word)

/** "Ready for the trip": of a thing that is asked for something else. */
function isReadyBeside(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (frame.vocabulary.has('ready') || frame.contraries.has('ready')) return false
  const next = atoms[at + 1]
  return next === undefined || next.type !== 'harmless' || !TOWARDS.has(wordOf(next)) || isPlain(atoms[at + 2])
}
const TOWARDS = words('to for when once')

/** "We will rotate at eight one", "going to flight level three four zero": the item's own word, and its value still to come. */
export const isOwnAhead = (frame: Frame, atoms: readonly Atom[], at: number) =>
  frame.figureCount > 0 &&
  atoms.slice(at + 1).some(({ type }) => type === 'run') &&
  (frame.harmless.has(wordOf(atoms[at + 1])) ||
    frame.asked.has(wordOf(atoms[at + 1])) ||
    (wordOf(atoms[at]) === 'going' && AIMS.has(wordOf(atoms[at + 1])) && atoms[at + 2]?.type === 'run'))
const AIMS = words('to off from for')
