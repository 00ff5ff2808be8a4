/**
 * What a word beside an answer belongs to, by where it stands. One in a clause of its own is about something else: what
 * people do ("i gave mine a good pull"), what the answer was compared with ("same as the final load sheet"), how something
 * is liked ("lovely push"). One that touches what was said of the item may be said of that: "set, slipping", "bags on board".
 */

import { isNumberWord } from '../numbers/words.ts'
import { isStateWord } from './lexicon.ts'
import { isSide, SUSPICIOUS, UNWELCOME } from './remarkWords.ts'
import { type Atom, isPlain, wordOf } from './scan.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.trim().split(/\s+/))
const marks = (text: string): readonly (readonly string[])[] => text.split('|').map((mark) => mark.trim().split(/\s+/))

const PEOPLE =
  words(`i you he she we they i've you've we've they've i'll you'll we'll he'll she'll they'll i'd you're y'all
  purser crew lead senior girls boys lads man men guy guys lady chief engineer driver ramper marshaller dispatcher
  controller captain instructor handler`)
const EVERYBODY = words('everybody everyone')
const BEING = words("is are was were be been being am i'm he's she's we're they're it's that's it that this there")
/** Of what the answer was compared with nothing follows for the item. */
const COMPARED =
  marks(`same as | as per | confirmed with | checked with | compared with | crosschecked with | according to |
  matches | matching | match | agrees with | agreeing with | than | that is what | that's what | which is what | for a | for this |
  thanks | thank you`)
const LIKED = words('lovely good nice great fine quiet beautiful smooth very pretty fresh')
/** "You can remove the bar." */
const ALLOWING = words('can may')
const AGREEING = words('matches match matched agrees agree agreed')
const JOINING = words('and but so or then')

/** "You're good to connect", "go ahead and hook up": what others are to do now. */
const isInvited = (clause: readonly string[]) => INVITING.some((mark) => has(clause, mark))
const INVITING =
  marks(`you're good to | you're fine to | you're clear to | you're free to | you are good to | you are fine to |
  you are clear to | you are free to | go ahead and | go ahead with | good to go and`)

/** Words of the clause before `at`: from the last joining word, or from what was said of the item. */
function clauseBefore(atoms: readonly Atom[], at: number): readonly string[] {
  let begin = at
  while (isPlain(atoms[begin - 1])) begin--
  if (atoms[begin - 1]?.type === 'command') begin--
  const said = atoms.slice(begin, at).flatMap((atom) => ('token' in atom ? [atom.token] : atom.tokens))
  const clause = said.map(({ text }) => text)
  if (isInvited(clause)) return clause
  return clause.slice(clause.findLastIndex((word) => JOINING.has(word)) + 1)
}

const has = (clause: readonly string[], mark: readonly string[]) =>
  clause.some((_, from) => mark.every((word, index) => clause[from + index] === word))

/** In it even what else would be doubt is none: "same as what i've got here", "lighter than yesterday". */
export function isCompared(atoms: readonly Atom[], at: number): boolean {
  const clause = [...clauseBefore(atoms, at), wordOf(atoms[at])]
  const isBeforeThan = wordOf(atoms[at + 1]) === 'than' || wordOf(atoms[at + 2]) === 'than'
  if (!COMPARED.some((mark) => has(clause, mark)) && !isBeforeThan) return false
  if (clause.some(isNumberWord)) return false
  // "Further than the right."
  let next = at + 1
  while (isPlain(atoms[next])) if (isSide(wordOf(atoms[next++]))) return false
  return true
}

/** The word's clause is about something else than the item. */
export function isElsewhere(atoms: readonly Atom[], at: number): boolean {
  const word = wordOf(atoms[at])
  const clause = clauseBefore(atoms, at)
  if (isInvited(clause)) return true
  // "Off we go."
  if (word === 'go' && clause.length < 2) return false
  // "You can remove the bar": what others are to do is no state.
  if (isStateWord(word)) return clause.at(-2) === 'you' && ALLOWING.has(clause.at(-1) ?? '')
  if (isCompared(atoms, at) || AGREEING.has(wordOf(atoms[at + 1]))) return true
  if (clause.slice(-2).some((word) => LIKED.has(word)) || LIKED.has(wordOf(atoms[at + 1]))) return true
  const subject = clause.findLastIndex((word) => PEOPLE.has(word) || EVERYBODY.has(word) || BEING.has(word))
  if (EVERYBODY.has(clause[subject - 1] ?? '')) return true
  return PEOPLE.has(clause[subject] ?? '') && !BEING.has(clause[subject + 1] ?? '') && !isAct(atoms, at)
}

/** "I lit them", "he kicked it": the item may be what something was done to. */
export const isAct = (atoms: readonly Atom[], at: number): boolean => OBJECTS.has(wordOf(atoms[at + 1]))
const OBJECTS = words('it them')

/** Whether what was said of the item stands right beside it, but for little words that tie it to that. */
export function isTouching(atoms: readonly Atom[], at: number): boolean {
  const isFirst = !atoms.slice(0, at).some((atom) => !isPlain(atom))
  let next = at + 1
  while (LINKING.has(wordOf(atoms[next]))) next++
  if (isFirst && atoms[next] !== undefined && !isPlain(atoms[next])) return true
  // "Set, caps are on": once the item's own was said, a thing with a verb of its own begins anew.
  if (!isFirst && VERBS.has(wordOf(atoms[at + 1]))) return false
  let before = at - 1
  while (isPlain(atoms[before]) && TYING.has(wordOf(atoms[before]))) before--
  return atoms[before] === undefined || !isPlain(atoms[before])
}
const LINKING = words('is are all both now')
const TYING = words("is are it it's that that's the a an my in on at of for from per by with to now then")
const VERBS = words('is are has have had looks look will')

/** A change under way, done or undone, its manner, or a lack: "slipping", "reopened", "loosely", "untried". */
const CHANGING = /(ing|ed|ly|er|less|wards?|n't)$|^(un|dis|de|mis|re|in|im|non|over|under|half|mid|semi|sub)[a-z]{3}/
/** It may speak against an item, of whatever it is said. */
export const isSuspect = (word: string): boolean =>
  CHANGING.test(word) || isStateWord(word) || UNWELCOME.has(word) || SUSPICIOUS.has(word)
