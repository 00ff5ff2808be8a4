/**
 * A list called by its name: "let's have the before start list, please". Besides the name stand words that ask, courtesies
 * and what is known to say nothing; whatever denies it, tells of it or puts it off makes it no call.
 */

import { canonOf, isNumberToken, type Token, tokensOf } from '../numbers/tokens.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord } from './lexicon.ts'
import { remarkPhraseAt } from './remarkPhrases.ts'
import { DOUBTFUL, REMARKS } from './remarkWords.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/))

/** Names by the list that they call. */
type Lists = Readonly<Record<string, readonly string[]>>

const LIST_WORDS = words('checklist checklists list check checks the')
/** One of these asks for it. */
const ASKING = words(`
  please call read run give start begin lets let's have do go get want need like ready time take`)
/** Between them and the name. */
const BESIDE = words("right me us we we're i can could may would through for to a our")
/** Put off politely, not in time. */
const WHENEVER = `
  when you're ready | when you are ready | when ready | whenever you're ready | whenever you are ready | whenever you like |
  when you like | when you can | if you please | if you would | if you will | if you don't mind | if i may | at your convenience |
  as soon as you're ready | as soon as you are ready | let's go | off you go | go ahead | i'd like | we'd like`
  .split('|')
  .map((text) => tokensOf(text.trim()).map((token) => token.text))
/** These tell of it. */
const TELLING = words(`
  was were did done had made been is complete completed finished checked set confirmed verified reviewed briefed planned
  entered selected looking looks good fine correct okayed says reads
  on in at of from with off after before until once next later soon what which how why who`)

/** Which one; undefined where it is none, or two are. */
export function calledList(tokens: readonly Token[], lists: Lists): string | undefined {
  const called = Object.entries(lists).filter(([, names]) => names.some((name) => isCalled(tokens, tokensOf(name))))
  return called.length === 1 ? called[0]?.[0] : undefined
}

const isListWord = ({ text }: Token) => LIST_WORDS.has(text)
const isOther = (token: Token) => !isListWord(token)

function isCalled(tokens: readonly Token[], name: readonly Token[]): boolean {
  const wanted = name.filter(isOther)
  if (wanted.length === 0) return canonOf(tokens) === canonOf(name)
  for (let at = 0; at < tokens.length; at++) {
    const end = endOf(tokens, wanted, at)
    if (end > at && isAround(tokens.slice(0, at), tokens.slice(end))) return true
  }
  return false
}

/** Compared without spaces, list words between aside; `at` where the name does not begin there. */
function endOf(tokens: readonly Token[], name: readonly Token[], at: number): number {
  const wanted = canonOf(name)
  let done = 0
  for (let end = at; end < tokens.length; end++) {
    const { canon } = tokens[end] as Token
    if (!wanted.startsWith(canon, done)) return at
    done += canon.length
    if (done === wanted.length) return end + 1
  }
  return at
}

/** What stands before and behind the name makes a call of it. */
function isAround(before: readonly Token[], behind: readonly Token[]): boolean {
  const [lead, tail] = [besides(before), besides(behind)]
  const isAsked =
    [...before, ...behind].some((token) => isListWord(token) && token.text !== 'the') ||
    before.some(({ text }) => ASKING.has(text)) ||
    behind.some(({ text }) => text === 'again') ||
    lead.length + tail.length === 0
  const isBare = ({ text }: Token) => HARMLESS.has(text) || HESITATIONS.has(text) || REMARKS.has(text)
  const isMeant = (token: Token) =>
    !isNumberToken(token) && !isNegation(token.text) && !TELLING.has(token.text) && !DOUBTFUL.has(token.text)
  const isLead = (token: Token) =>
    token.text === 'again' ||
    ASKING.has(token.text) ||
    BESIDE.has(token.text) ||
    (isMeant(token) && isBare(token) && !isStateWord(token.text))
  return isAsked && !isQuestion(before) && lead.every(isLead) && tail.every(isLead)
}

/** "Did we do the before start list?" */
const isQuestion = ([first, second]: readonly Token[]) =>
  QUESTIONS.has(`${first?.text ?? ''} ${second?.text ?? ''}`) || first?.text === 'did'
const QUESTIONS: ReadonlySet<string> = new Set(['have we', 'have you', 'do we', 'is the', 'was the', 'are we'])

/** Without list words, ways to say "at any time", and phrases that say nothing. */
function besides(tokens: readonly Token[]): readonly Token[] {
  const left: Token[] = []
  for (let at = 0; at < tokens.length; ) {
    const whenever = WHENEVER.find((phrase) => phrase.every((word, index) => tokens[at + index]?.text === word))
    const skipped = Math.max(whenever?.length ?? 0, remarkPhraseAt(tokens, at))
    const token = tokens[at] as Token
    if (skipped === 0 && isOther(token)) left.push(token)
    at += Math.max(1, skipped)
  }
  return left
}
