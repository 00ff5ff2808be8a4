/**
 * What is said beside an answer: "one four two, bugs set", "closed, no lights". Words that carry no number, state,
 * direction or negation of the item are let through; what might speak against it stays, as doubt. Form decides, never a
 * value.
 */

import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { isNumberWord } from '../numbers/words.ts'
import { type Frame, hasRole } from './frame.ts'
import { isStateWord } from './lexicon.ts'
import {
  ABSENT_TROUBLES,
  ALL,
  BEFORE_VALUE,
  BESIDE_STATE,
  COUNTED,
  COUNTED_THINGS,
  DESCENDING,
  DOUBTFUL,
  FAULTS,
  isSide,
  MEASURED,
  NEVER_WELCOME,
  NO_AND,
  NOT_BAD,
  PASSING,
  SIDES,
  SIGNS,
  UNWELCOME,
} from './remarkWords.ts'
import { type Atom, beforeArticle, isPlain, type PhraseAtom, type RunAtom, wordOf } from './scan.ts'
import { isUnheardOf } from './unheardOf.ts'

export interface Weighed {
  readonly atoms: readonly Atom[]
  /** All words, in order, but for what was harmlessly denied. */
  readonly said: readonly Token[]
  /** Words that are nobody's were let through. */
  readonly beside: boolean
  /** Something in it may speak against the item. */
  readonly doubt: boolean
  /** A word in it is not known to be harmless. */
  readonly unheard: boolean
  /** All of several are asked for, and only one of a pair was named. */
  readonly partial: boolean
  /** Each of a pair was said to be in another state. */
  readonly mixed: boolean
}

/** An answer's atoms without what is only beside it. */
export function withoutRemarks(frame: Frame, all: readonly Atom[]): Weighed {
  const denied = withoutDenials(frame, all)
  const counted = withoutCounts(frame, denied)
  const bound = withoutForeignStates(frame, counted.atoms)
  const words = counted.atoms.filter(isPlain).map(wordOf)
  // "Off, no, I leave it on": a "no" that is not the state's.
  const isLooseNo = denied.some((atom, at) => wordOf(atom) === 'no' && isPlain(denied[at + 1]))
  const isMine = (next: string) => next === 'side' || (frame.ofSeveral && frame.harmless.has(next))
  const isMySide = words.some((word, at) => word === 'my' && isMine(words[at + 1] ?? ''))
  const mixed = frame.ofSeveral && isMixed(frame, all)
  const isBoth = words.includes('mine') && words.includes('yours')
  const isDoubtful =
    words.some((word) => (OWNERS.has(word) ? !isBoth && !frame.ofSeveral : isDoubt(frame, word))) ||
    counted.atoms.some((_, at) => isUnwelcome(frame, counted.atoms, at)) ||
    isAsked(counted.atoms)
  return {
    said: denied.flatMap((atom) => ('token' in atom ? [atom.token] : atom.tokens)),
    atoms: bound.filter(({ type }) => type !== 'harmless' && type !== 'unknown'),
    beside: counted.atoms.length < all.length || all.some(({ type }) => type === 'unknown'),
    doubt:
      counted.doubt ||
      isLooseNo ||
      isDoubtful ||
      all.some((atom) => atom.type === 'unknown' && atom.amount && atom.token.foreign),
    unheard: counted.atoms.some((_, at) => isUnheardOf(frame, counted.atoms, at)),
    partial:
      frame.ofSeveral && (mixed || isOneOfPair(frame, all) || (isMySide && !words.some((word) => ALL.has(word)))),
    mixed,
  }
}

/** One of the two seats: "set on mine". */
const OWNERS: ReadonlySet<string> = new Set(['mine', 'yours'])

function isDoubt(frame: Frame, word: string): boolean {
  if (word === 'your') return true
  if (DOUBTFUL.has(word) || FAULTS.has(word) || isCutShort(frame, word)) return true
  return (frame.figureCount === 0 && UNWELCOME.has(word)) || (frame.vocabulary.has('climb') && DESCENDING.has(word))
}

/** "Is it set?", "can you set it", "to be set": asked, ordered, or still to come. */
function isAsked(atoms: readonly Atom[]): boolean {
  const said = atoms.flatMap((atom) => ('token' in atom ? [atom.token.text] : atom.tokens.map(({ text }) => text)))
  const isQuestion = BEFORE_SUBJECT.has(said[0] ?? '') && SUBJECTS.has(said[1] ?? '')
  return isQuestion || said.some((word, at) => STILL_TO_COME.has(`${word} ${said[at + 1] ?? ''}`) && !isDone(said, at))
}
/** "I have set it", "set, it is …". */
const isDone = (said: readonly string[], at: number) =>
  HAVING.has(said[at - 1] ?? '') || said[at + 2] === 'sure' || (said[at + 1] === 'it' && LINKS.has(said[at + 2] ?? ''))
const HAVING: ReadonlySet<string> = new Set('have has i we'.split(' '))
const BEFORE_SUBJECT: ReadonlySet<string> = new Set('is are was has have can could did do does will shall'.split(' '))
const SUBJECTS: ReadonlySet<string> = new Set('it they you'.split(' '))
const STILL_TO_COME: ReadonlySet<string> = new Set([
  ...['to be', 'to set', 'have to', 'has to', 'let me', 'let us', 'you set', 'set it', 'set when', 'get set', 'set up'],
  ...['set me', 'please set', 'as soon'],
])

/** "In the red", "bugs released": but a red beacon may be on. */
function isUnwelcome(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const atom = atoms[at]
  if (atom?.type !== 'unknown') return false
  if (wordOf(atom) === 'off')
    return (LINKS.has(wordOf(atoms[at - 1])) || ALL.has(wordOf(atoms[at - 1]))) && !isPreposition(atoms, at)
  const next = atoms[at + 1]
  const names = (next?.type === 'phrase' && !isBareState(frame, next)) || frame.harmless.has(wordOf(next))
  return NEVER_WELCOME.has(wordOf(atom)) && !names
}

/** "No lights", "not needed", "nothing unusual": said to be absent, and not the item's. */
function withoutDenials(frame: Frame, atoms: readonly Atom[]): readonly Atom[] {
  const kept: Atom[] = []
  for (let at = 0; at < atoms.length; ) {
    const atom = atoms[at] as Atom
    const end = atom.type === 'not' ? denialEnd(frame, atoms, at) : at
    if (end === at) kept.push(atom)
    at = Math.max(end, at + 1)
  }
  return kept
}

/** "Aux" may be the auxiliary that the item must not be on. */
function isCutShort(frame: Frame, word: string): boolean {
  const isName = [...frame.harmless].some((own) => own.startsWith(word))
  return (
    word.length > 2 &&
    !isName &&
    [...frame.contraries].some((own) => own.length > word.length + 2 && own.startsWith(word))
  )
}

const ABSENT: ReadonlySet<string> = new Set(['no', 'without', 'nothing'])

/** End of what is denied harmlessly from `at` on; `at` where it may be about the item. */
function denialEnd(frame: Frame, atoms: readonly Atom[], at: number): number {
  let next = at + 1
  if (!ABSENT.has(wordOf(atoms[at]))) {
    while (isPlain(atoms[next]) && NO_AND.has(wordOf(atoms[next]))) next++
    return isPlain(atoms[next]) && NOT_BAD.has(wordOf(atoms[next])) ? next + 1 : at
  }
  while (isPlain(atoms[next]) && NO_AND.has(wordOf(atoms[next]))) next++
  const noun = atoms[next]
  if (wordOf(atoms[at]) === 'nothing' && (wordOf(noun) === 'showing' || wordOf(noun) === 'unusual')) return next + 1
  if (!isPlain(noun) || !ABSENT_TROUBLES.has(wordOf(noun))) return at
  next++
  // "No lights on": the state is theirs.
  const after = atoms[next]
  const isTheirs = after?.type === 'phrase' && after.tokens.length === 1 && isBareState(frame, after)
  return isTheirs && atoms.slice(0, at).some((one) => one.type === 'phrase' && isBareState(frame, one))
    ? next + 1
    : next
}

/** Numbers that count or measure something else: "within twenty feet". */
function withoutCounts(frame: Frame, atoms: readonly Atom[]): { atoms: readonly Atom[]; doubt: boolean } {
  const kept: Atom[] = []
  let doubt = false
  for (let at = 0; at < atoms.length; at++) {
    const atom = atoms[at] as Atom
    if (atom.type === 'run' && atom.tokens.some(isNumberToken)) {
      if (isMeasured(frame, atoms, at) || isHowMany(atoms, at)) continue
      if (isOthers(frame, atoms, at) && !isFew(atoms, at)) doubt = true
      else if (isCounting(frame, atoms, at)) continue
    }
    // "Five point two up, off".
    if (wordOf(atom) === 'off' && atom.type === 'unknown' && atoms[at - 1]?.type === 'run' && !isPreposition(atoms, at))
      doubt = true
    if (atom.type === 'unknown' && atom.amount) {
      let end = at
      while (isAmount(atoms[end])) end++
      if (!isCountedAt(frame, atoms, at, end)) doubt = true
      at = end - 1
      continue
    }
    kept.push(atom)
  }
  return { atoms: kept, doubt }
}

/** "All three bugged": how many there are. */
function isHowMany(atoms: readonly Atom[], at: number): boolean {
  const run = atoms[at]
  return (
    run?.type === 'run' &&
    run.tokens.length === 1 &&
    wordOf(atoms[beforeArticle(atoms, at)]) === 'all' &&
    isPlain(atoms[at + 1])
  )
}

/** Right after the name of something else a number may be that one's: "rotate one two six" to "V one?". */
function isOthers(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  let before = at - 1
  while (atoms[before]?.type === 'harmless') before--
  const named = atoms[before]
  if (named?.type !== 'unknown') return false
  // "Left mag ninety": the item's own name stands before that.
  const owner = atoms[before - 1]
  if (owner?.type === 'phrase' && owner.known.type === 'label') return false
  const { text } = named.token
  if (frame.isUnasked && PASSING.has(text)) return false
  return !BEFORE_VALUE.has(text) && !isStateWord(text) && !frame.initials.has(text)
}

const isAmount = (atom: Atom | undefined): boolean => atom?.type === 'unknown' && atom.amount

/** "Twenty feet", "two starts": followed by what it counts, and that is no unit of the item's. */
function isCounting(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const before = atoms[at - 1]
  if (before?.type === 'phrase' && before.known.type === 'label') return false
  const after = wordOf(atoms[at + 1])
  const isOwn = frame.vocabulary.has(after) || frame.harmless.has(after)
  return isPlain(atoms[at + 1]) && (isFew(atoms, at) || (COUNTED.has(after) && !isOwn && !isUnit(frame, after)))
}

/** "The two windows". */
function isFew(atoms: readonly Atom[], at: number): boolean {
  const run = atoms[at]
  return run?.type === 'run' && run.tokens.length === 1 && COUNTED_THINGS.has(wordOf(atoms[at + 1]))
}

const isUnit = (frame: Frame, word: string) =>
  frame.specs.some((spec) => spec !== undefined && affixesOf(spec).has(word))

/** "Within twenty", "difference is only twenty". */
function isMeasured(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const before = atoms.slice(Math.max(0, at - 3), at)
  const since = before.slice(before.findLastIndex((one) => !isPlain(one)) + 1)
  return since.some((one) => MEASURED.has(wordOf(one)) && !frame.harmless.has(wordOf(one)))
}

/** In an item without figures a number of some size, or one with its noun, is about something else. */
function isCountedAt(frame: Frame, atoms: readonly Atom[], at: number, end: number): boolean {
  // "Down, two green" to `down three green`.
  const isOwnCount = frame.path.some(
    (slot) => slot.type === 'word' && slot.wordings.some(({ words }) => words.some(isNumberWord)),
  )
  if (frame.figureCount > 0 || isOwnCount) return false
  const after = wordOf(atoms[end])
  const noun =
    COUNTED.has(after) || COUNTED_THINGS.has(after) || frame.harmless.has(after) ? after : wordOf(atoms[end + 1])
  if (end - at > 1 || COUNTED.has(noun) || COUNTED_THINGS.has(noun) || frame.harmless.has(noun)) return true
  return (frame.ofSeveral && isSide(wordOf(atoms[at]))) || wordOf(atoms[at]) === 'a'
}

/** "Strobes on": a state right after the name of another thing is that thing's. */
function withoutForeignStates(frame: Frame, atoms: readonly Atom[]): readonly Atom[] {
  const isForeign = (atom: Atom, at: number): boolean => {
    if (atom.type === 'run') return isFarDirection(frame, atoms, at, atom)
    if (atom.type !== 'phrase' || !isBareState(frame, atom)) return false
    if (isPreposition(atoms, at))
      return atoms.some((one, i) => i !== at && one.type === 'phrase' && SAYING.has(one.known.type))
    return atom.known.type === 'own' && (isNamedBefore(frame, atoms, at) || isOfOtherPart(frame, atoms, at, atom))
  }
  return atoms.filter((atom, at) => !isForeign(atom, at))
}

const SAYING: ReadonlySet<string> = new Set(['own', 'state'])
const LINKS: ReadonlySet<string> = new Set('is are now'.split(' '))

function isNamedBefore(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (frame.isUnasked) return false
  let before = at - 1
  while (atoms[before]?.type === 'harmless' && LINKS.has(wordOf(atoms[before]))) before--
  const named = atoms[before]
  if (named?.type !== 'unknown' || named.amount) return false
  const word = named.token.text
  return !BESIDE_STATE.has(word) && !isStateWord(word) && !isSide(word) && !frame.initials.has(word)
}

/** "Tug set, brake away" for `brake set, tug away`. */
function isOfOtherPart(frame: Frame, atoms: readonly Atom[], at: number, { known }: PhraseAtom): boolean {
  let before = at - 1
  while (atoms[before]?.type === 'harmless' && LINKS.has(wordOf(atoms[before]))) before--
  const word = wordOf(atoms[before])
  const has = (slot: Frame['path'][number]) =>
    slot.type === 'word' && slot.wordings.some(({ words }) => words.includes(word))
  const own = frame.path[known.slot]
  return atoms[before]?.type === 'harmless' && word !== '' && own !== undefined && !has(own) && frame.path.some(has)
}

/** "Off the jetty", "off to the left": no state. */
function isPreposition(atoms: readonly Atom[], at: number): boolean {
  const word = wordOf(atoms[at])
  if (word !== 'off' && word !== 'on') return false
  const [next, then] = [atoms[at + 1], atoms[at + 2]]
  const leads = word === 'off' ? OFF_LEADS : ON_LEADS
  return next?.type === 'harmless' && leads.has(wordOf(next)) && (isPlain(then) || wordOf(next) === 'to')
}
const OFF_LEADS: ReadonlySet<string> = new Set(['the', 'to', 'of', 'our', 'my'])
const ON_LEADS: ReadonlySet<string> = new Set(['the', 'our', 'my', 'both'])

/** Of a runway "right" and "left" are said at once; later they are about something else. */
function isFarDirection(frame: Frame, atoms: readonly Atom[], at: number, run: RunAtom): boolean {
  const isOnlySide = run.tokens.every((token: Token) => hasRole(frame, token, 'direction'))
  if (!isOnlySide || frame.specs.some((spec) => spec?.kind === 'trim')) return false
  const runs = atoms.slice(0, at).filter((one) => one.type === 'run')
  // After a side another one speaks against it: "two seven left, actually centre".
  const hasSide = runs.some(({ tokens }) => tokens.some((token) => hasRole(frame, token, 'direction')))
  return atoms[at - 1]?.type !== 'run' && runs.length > 0 && !hasSide
}

/** A word that is a state and nothing more: it needs a thing that it is the state of. */
function isBareState(_frame: Frame, atom: Extract<Atom, { type: 'phrase' }>): boolean {
  const [only, ...more] = atom.tokens
  return (
    more.length === 0 &&
    only !== undefined &&
    (atom.known.type === 'own' || atom.known.type === 'state') &&
    !ALL.has(only.text) &&
    (isStateWord(only.text) || !atom.known.literal)
  )
}

const ALL_WELL: ReadonlySet<string> = new Set('good right fine ok okay set yours done well'.split(' '))

function isOneOfPair(frame: Frame, atoms: readonly Atom[]): boolean {
  const said = atoms.flatMap((atom) => {
    switch (atom.type) {
      case 'unknown':
        return [atom.token.text]
      case 'harmless':
      case 'phrase':
        return atom.tokens.map(({ text }) => text)
      default:
        return []
    }
  })
  const isOwn = (word: string) => (frame.vocabulary.has(word) || frame.harmless.has(word)) && !ALL.has(word)
  // "The two switches" are both.
  const words = said.filter((word, at) => !isOwn(word) && !(word === 'two' && COUNTED_THINGS.has(said[at + 1] ?? '')))
  // "All good" is not all of them.
  const isAll = (word: string, at: number) => ALL.has(word) && !(word === 'all' && ALL_WELL.has(said[at + 1] ?? ''))
  if (said.some(isAll)) return false
  const pairs = frame.harmless.has('signs') ? [...SIDES, SIGNS] : SIDES
  return pairs.some(([one, other]) => words.some((word) => one.has(word)) !== words.some((word) => other.has(word)))
}

/** "Left on, right off": each its own state. */
function isMixed(frame: Frame, atoms: readonly Atom[]): boolean {
  return SIDES.some((pair) => {
    const states = pair.map((side) => {
      const at = atoms.findIndex((atom) => side.has(wordOf(atom)) && !frame.vocabulary.has(wordOf(atom)))
      const next =
        at < 0 ? undefined : atoms.slice(at + 1).find((atom) => atom.type === 'phrase' && isStateWord(wordOf(atom)))
      return wordOf(next)
    })
    return states.every((state) => state !== '') && new Set(states).size > 1
  })
}
