/**
 * What is said beside an answer: "one four two, bugs set", "closed, no lights". What is known to say nothing of the
 * item is let through; what might speak against it stays, as doubt. Form decides, never a value.
 */

import type { Token } from '../numbers/tokens.ts'
import { isCompared } from './clauses.ts'
import { withoutCounts } from './counts.ts'
import { withoutDenials } from './denials.ts'
import { isBareState, isPreposition, LINKS, withoutForeignStates } from './foreignStates.ts'
import type { Frame } from './frame.ts'
import { isMixed, isOneOfPair, isSingular } from './pairs.ts'
import { ALL, DESCENDING, DOUBTFUL, FAULTS, isSide, NEVER_WELCOME, ON_PAPER, UNWELCOME } from './remarkWords.ts'
import { type Atom, isPlain, wordOf } from './scan.ts'
import { isOwnAhead, isUnheardOf } from './unheardOf.ts'

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
  const denied = withoutDenials(all)
  const counted = withoutCounts(frame, denied)
  const bound = withoutForeignStates(frame, counted.atoms)
  const words = counted.atoms.filter(isPlain).map(wordOf)
  // "Off, no, I leave it on": a "no" that is not the state's.
  const isLooseNo = denied.some((atom, at) => wordOf(atom) === 'no' && isPlain(denied[at + 1]))
  // Of "harness and doors" the harness is one, and mine.
  const isMine = (next: string) => next === 'side' || (frame.ofSeveral && frame.several.has(next))
  const isMySide = frame.figureCount < 2 && words.some((word, at) => word === 'my' && isMine(words[at + 1] ?? ''))
  const mixed = isMixed(frame, all)
  const isOurs = (mine: readonly string[], yours: readonly string[]) =>
    words.some((word) => mine.includes(word)) && words.some((word) => yours.includes(word))
  const isBoth = isOurs(['mine', 'my', 'here'], ['yours', 'your'])
  const isAbout = (at: number) =>
    isAllowed(counted.atoms, at) ||
    // "We will rotate at eight one".
    (TO_COME.has(wordOf(counted.atoms[at])) && isOwnAhead(frame, counted.atoms, at)) ||
    isIdleStop(counted.atoms, at) ||
    (OF_SOURCES.has(wordOf(counted.atoms[at])) && isCompared(counted.atoms, at))
  const isDoubtAt = (atom: Atom, at: number): boolean => {
    const word = wordOf(atom)
    if (!isPlain(atom)) return false
    const speaks = OWNERS.has(word) ? !isBoth && (word === 'your' || !frame.ofSeveral) : isDoubt(frame, word)
    return speaks && !isAbout(at)
  }
  const isDoubtful =
    counted.atoms.some(isDoubtAt) ||
    counted.atoms.some((_, at) => isUnwelcome(frame, counted.atoms, at)) ||
    isAsked(frame, counted.atoms)
  return {
    said: denied.flatMap(saidIn),
    atoms: bound.filter(({ type }) => type !== 'harmless' && type !== 'unknown'),
    beside: counted.atoms.length < all.length || denied.some(isDenial) || all.some(({ type }) => type === 'unknown'),
    doubt:
      counted.doubt ||
      isLooseNo ||
      isDoubtful ||
      all.some((atom) => atom.type === 'unknown' && atom.amount && atom.token.foreign),
    unheard: counted.atoms.some((_, at) => isUnheardOf(frame, counted.atoms, at)),
    partial:
      mixed ||
      (frame.ofSeveral &&
        (isOneOfPair(frame, all) ||
          isSingular(frame, all) ||
          (isMySide && !isBoth && !words.some((word) => ALL.has(word))))),
    mixed,
  }
}

/** "Clear on the right" names no engine. */
function saidIn(atom: Atom): readonly Token[] {
  if ('token' in atom) return [atom.token]
  const isRemark = atom.type === 'harmless' && atom.tokens.length > 1
  return isRemark ? atom.tokens.filter(({ text }) => !isSide(text)) : atom.tokens
}

const isDenial = (atom: Atom) => atom.type === 'harmless' && atom.tokens.length === 0
const TO_COME: ReadonlySet<string> = new Set(['will', 'going'])
/** "What he gave us", "than yesterday": of what the answer is compared with. */
const OF_SOURCES: ReadonlySet<string> = new Set(
  'what which yesterday last earlier before previously was were had expected planned computed calculated briefed'.split(
    ' ',
  ),
)
/** "You may remove the bar." */
const isAllowed = (atoms: readonly Atom[], at: number) => wordOf(atoms[at]) === 'may' && wordOf(atoms[at - 1]) === 'you'
/** "At the idle stop". */
const isIdleStop = (atoms: readonly Atom[], at: number) =>
  /^stops?$/.test(wordOf(atoms[at])) && wordOf(atoms[at - 1]) === 'idle'

/** One of the two seats: "set on mine". */
const OWNERS: ReadonlySet<string> = new Set(['mine', 'yours', 'your'])

/** "We need four eight eight zero", of what is required. */
const NEEDING: ReadonlySet<string> = new Set(['need', 'needs'])

function isDoubt(frame: Frame, word: string): boolean {
  // "Assumed temperature": what is asked for.
  if (frame.asked.has(word) || (NEEDING.has(word) && frame.asked.has('required'))) return false
  if (DOUBTFUL.has(word) || FAULTS.has(word) || isCutShort(frame, word)) return true
  if (ON_PAPER.has(word)) return frame.figureCount > 0
  return (frame.figureCount === 0 && UNWELCOME.has(word)) || (frame.vocabulary.has('climb') && DESCENDING.has(word))
}

/** "Is it set?", "can you set it", "to be set": asked, ordered, or still to come. */
function isAsked({ own, isUnasked }: Frame, atoms: readonly Atom[]): boolean {
  const said = atoms.flatMap((atom) => ('token' in atom ? [atom.token.text] : atom.tokens.map(({ text }) => text)))
  const [first = '', second = ''] = said
  const isQuestion = BEFORE_SUBJECT.has(first) && SUBJECTS.has(second) && !own.has(first)
  // "Ground, chocks removed please".
  const isOrder = !isUnasked && ADDRESSED.has(said[0] ?? '') && said.at(-1) === 'please'
  return (
    isQuestion ||
    isOrder ||
    said.some(
      (word, at) =>
        STILL_TO_COME.has(`${word} ${said[at + 1] ?? ''}`) && !isDone(said, at) && !(own.has(word) && own.has('soon')),
    )
  )
}
const ADDRESSED: ReadonlySet<string> = new Set('ground cabin crew purser engineer mechanic'.split(' '))
/** "I have set it", "set, it is …". */
const isDone = (said: readonly string[], at: number) =>
  (said[at + 1] === 'me' && LOOKING.has(said[at + 2] ?? '')) ||
  HAVING.has(said[at - 1] ?? '') ||
  said[at + 2] === 'sure' ||
  (said[at + 1] === 'it' && LINKS.has(said[at + 2] ?? ''))
/** "Let me see". */
const LOOKING: ReadonlySet<string> = new Set('see look find check read have just'.split(' '))
const HAVING: ReadonlySet<string> = new Set('have has i we'.split(' '))
const BEFORE_SUBJECT: ReadonlySet<string> = new Set('is are was has have can could did do does will shall'.split(' '))
const SUBJECTS: ReadonlySet<string> = new Set('it they you the my our your'.split(' '))
const STILL_TO_COME: ReadonlySet<string> = new Set([
  ...[
    'to be',
    'to set',
    'have to',
    'has to',
    'let me',
    'let us',
    'you set',
    'set it',
    'set when',
    'get it',
    'get them',
    'get set',
    'set up',
  ],
  ...['set me', 'please set', 'as soon'],
])

/** "In the red", "bugs released": but a red beacon may be on. */
function isUnwelcome(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const atom = atoms[at]
  if (atom?.type !== 'unknown') return false
  if (wordOf(atom) === 'off')
    return (LINKS.has(wordOf(atoms[at - 1])) || ALL.has(wordOf(atoms[at - 1]))) && !isPreposition(atoms, at)
  const next = atoms[at + 1]
  const names = (next?.type === 'phrase' && !isBareState(next)) || frame.harmless.has(wordOf(next))
  return NEVER_WELCOME.has(wordOf(atom)) && !names && !isItsLight(frame, atoms, at)
}

/** "The red light is on" of a brake or a beacon; "the red ribbon". */
function isItsLight(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const next = wordOf(atoms[at + 1])
  const isLit = frame.harmless.has('brake') || frame.harmless.has('beacon')
  return wordOf(atoms[at]) === 'red' && isLit && (next === 'light' || next === 'one')
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
