/**
 * The standard phrases in one table: what each command is called, how pilots say it, and which of that the ear listens
 * for. What a command does in a run is in `run/core/commanding.ts`, its button in `app/view/buttons.ts`, what the
 * debrief has of it in `run/debrief/`: tables by the same names, so that a new command is missing where it is missing.
 */

import { clausesOf, type Token, type Transcript, textOf, tokensOf } from '../numbers/tokens.ts'
import { calledList } from './calledList.ts'
import { HESITATIONS, OPENERS } from './lexicon.ts'
import { isStop } from './stopWords.ts'
import { yesOrNo } from './yesNo.ts'

export interface ReadCommand {
  readonly command: Command
  /** A challenge for `recheck`, a figure for `confirm`, a list for `call`, a reason for `pass`, words for `remark`. */
  readonly argument?: string
}

export interface CommandNames {
  /** A yes-or-no question is open: only then are affirm and negative commands. */
  readonly yesNo?: boolean
  /** List -> its spoken names. */
  readonly lists?: Readonly<Record<string, readonly string[]>>
  /** What can be gone back to: a challenge, a briefing, an exchange, a call of one -> its spoken names. */
  readonly items?: Readonly<Record<string, readonly string[]>>
  /** Figure -> its spoken names. */
  readonly confirmable?: Readonly<Record<string, readonly string[]>>
}

/** A whole utterance without the polite words and hesitations at its ends. */
interface Said {
  readonly tokens: readonly Token[]
  /** Without spaces, as phrases are compared. */
  readonly squeezed: string
  /** What the tokens were cut from. */
  readonly text: string
}

interface Wording {
  /**
   * Of the ways to say it those that pilots use most: the ear listens for them, the button's phrase first. Each further
   * one makes every other phrase a little harder to tell apart.
   */
  readonly listenedFor: readonly string[]
  /** What the command is about, where the utterance is this command; undefined where it is not. */
  readonly read: (said: Said, names: CommandNames) => { readonly argument?: string } | undefined
}

/** Said in just these words. */
function phrases(listenedFor: readonly string[], alsoUnderstood: readonly string[]): Wording {
  const known = new Set([...listenedFor, ...alsoUnderstood].map((text) => squeezedTokens(tokensOf(text))))
  return { listenedFor, read: ({ squeezed }) => (known.has(squeezed) ? {} : undefined) }
}

/** Said in answer to a yes-or-no question, as "yes" or "no" or in just these words; elsewhere they are part of other speech. */
function atQuestion(answer: 'yes' | 'no', listenedFor: readonly string[], alsoUnderstood: readonly string[]): Wording {
  const { read } = phrases(listenedFor, alsoUnderstood)
  return {
    listenedFor,
    read: (said, names) =>
      names.yesNo ? (read(said, names) ?? (yesOrNo(said) === answer ? {} : undefined)) : undefined,
  }
}

/** One word, and after it what the command is about. */
function opening(
  word: string,
  listenedFor: readonly string[],
  argument: (rest: readonly Token[], said: Said, names: CommandNames) => { readonly argument?: string } | undefined,
): Wording {
  return {
    listenedFor,
    read: (said, names) => (said.tokens[0]?.text === word ? argument(said.tokens.slice(1), said, names) : undefined),
  }
}

const about = (argument: string | undefined) => (argument === undefined ? undefined : { argument })

/** Why an item is passed, with the ways to say it: first what Otherseat itself says and shows. */
const REASONS = {
  notFitted: ['not fitted', 'not installed', 'not equipped'],
  simulatorFault: ['simulator fault', 'sim fault', 'simulator failure', 'fault of the simulator'],
  instructorsWord: ["instructor's word", 'instructors word', 'instructor word', 'on instructor word'],
  training: ['training', 'for training'],
} as const satisfies Readonly<Record<string, readonly [string, ...string[]]>>

/** An optional item is closed by these words alone; any other item is passed with a reason, and on affirm. */
export const NOT_APPLICABLE = ['not applicable', 'not required'] as const

export type PassReason = keyof typeof REASONS | 'notApplicable'
export const PASS_REASONS = Object.keys(REASONS) as readonly (keyof typeof REASONS)[]

/** A reason as Otherseat says and shows it: "not fitted". */
export const reasonWords = (reason: PassReason): string =>
  reason === 'notApplicable' ? NOT_APPLICABLE[0] : REASONS[reason][0]

/** How an item that was passed is told: "passed: training", "not applicable". */
export function passedWords(reason: PassReason | undefined): string {
  if (reason === 'notApplicable') return reasonWords(reason)
  return reason ? `passed: ${reasonWords(reason)}` : 'passed'
}

/** Ways to stop everything that the ear listens for. */
const STOPS = [
  'stop',
  'stop stop',
  'stop stop stop',
  'emergency stop',
  'stop the push',
  'abort',
  'abort start',
  'emergency',
]
/** "Back to" alone begins much talk that is none. */
const RECHECK_BEGINS = [['recheck'], ['go', 'back', 'to']]
const RECHECK = [...RECHECK_BEGINS, ['back', 'to']]

/** Whether words ask for something to be gone back to, whatever that is. */
export function isRecheck({ tokens: all }: Transcript): boolean {
  const tokens = bare(all)
  return RECHECK_BEGINS.some((words) => words.every((word, at) => tokens[at]?.text === word))
}

const SPOKEN_REASONS = PASS_REASONS.map(reasonWords)

const WORDINGS = {
  // Comes before everything, wherever the run is: `interpret` asks for it first.
  stop: { listenedFor: STOPS, read: ({ tokens }) => (isStop(tokens, true) ? {} : undefined) },
  sayAgain: phrases(
    ['say again'],
    ['say it again', 'say again all', 'repeat', 'repeat that', 'come again', 'pardon', 'what was that'],
  ),
  standBy: phrases(
    ['stand by', 'wait one'],
    [
      ...['standby', 'stand by one', 'standby one', 'wait', 'hold on', 'one moment'],
      ...['hold the checklist', 'hold checklist', 'checklist hold', 'hold the list'],
    ],
  ),
  continue: phrases(
    ['continue', 'go on'],
    [
      ...['go ahead', 'resume', 'ready to continue', 'carry on'],
      ...[
        'continue the checklist',
        'continue checklist',
        'checklist continue',
        'continue the list',
        'resume the checklist',
      ],
    ],
  ),
  disregard: phrases(['disregard'], ['disregard that', 'disregard my last', 'disregard last']),
  // What is corrected follows from where the run is: `interpret` takes the word off the head of an utterance.
  correction: { listenedFor: ['correction'], read: () => undefined },
  whatIsLeft: phrases(
    ['what is left', "what's left"],
    [
      ...['what remains', 'what is remaining', "what's remaining", 'items left', 'items remaining'],
      ...['what is open', "what's open"],
    ],
  ),
  whereAreWe: phrases(['where are we'], ['where were we', 'where am i', 'what is next', "what's next", 'what now']),
  whatCanISay: phrases(['what can i say'], ['help', 'what do i say', 'what may i say', 'what can we say']),
  // It says neither which: left open, or passed.
  skip: phrases([], ['skip', 'skip it', 'skip this', 'skip that', 'skip this item', 'next', 'next item', 'next one']),
  goBack: phrases(['go back one', 'go back'], ['back one', 'go back one item', 'previous item', 'one back']),
  recheck: {
    listenedFor: [],
    read: ({ tokens }, { items }) => {
      const opening = RECHECK.find((words) => words.every((word, at) => tokens[at]?.text === word))
      return opening && about(named(tokens.slice(opening.length), items))
    },
  },
  fromTop: phrases(
    ['from the top'],
    ['start again from the top', 'from the beginning', 'start over', 'restart the list'],
  ),
  leaveOpen: phrases(['leave it open', 'leave open'], ['leave this open', 'leave that open', 'leave item open']),
  pass: opening('pass', ['pass', ...SPOKEN_REASONS, ...SPOKEN_REASONS.map((reason) => `pass ${reason}`)], passIn),
  confirm: opening('confirm', [], (rest, _, { confirmable }) => about(named(rest, confirmable))),
  remark: opening('remark', ['remark'], (rest, { text }) => ({ argument: textOf({ text, tokens: rest }) })),
  radioCheck: phrases(['radio check'], ['how do you read', 'do you read', 'do you read me', 'do you hear me']),
  call: {
    listenedFor: [],
    read: (said, { lists = {} }) =>
      // "We're in good shape, so let's do the before start checks."
      about(calledList(said.tokens, lists) ?? calledList(bare(clausesOf(said).at(-1)?.tokens ?? []), lists)),
  },
  affirm: atQuestion(
    'yes',
    ['affirm'],
    [
      ...['confirmed', 'correct', 'that is correct', "that's correct", "that's right", 'that is right'],
      ...[
        "let's do that",
        "let's do that first",
        'do that first',
        'do that',
        "we'll do that first",
        "i'll do that first",
      ],
    ],
  ),
  negative: atQuestion('no', ['negative'], ['not yet', 'leave it', 'later', 'incorrect']),
} satisfies Readonly<Record<string, Wording>>

export type Command = keyof typeof WORDINGS
export const COMMANDS = Object.keys(WORDINGS) as readonly Command[]

/** What the ear listens for wherever it listens; names of lists and figures are the pack's. */
export const LISTENED_FOR: readonly string[] = COMMANDS.flatMap((command) => WORDINGS[command].listenedFor)

/** The way to say a command that its button names; empty where it has no words of its own. */
export const phraseOf = (command: Command): string => WORDINGS[command].listenedFor[0] ?? ''

/** Words without spaces and apostrophes: "stand by" is "standby". */
function squeezedTokens(tokens: readonly Token[]): string {
  return tokens
    .map(({ canon }) => canon)
    .join('')
    .replaceAll("'", '')
}

const POLITE = new Set([...HESITATIONS, 'please', 'okay', 'ok', 'and', 'so', 'well', 'now', 'sir', 'captain', 'then'])

const LEADING = new Set([...POLITE, ...OPENERS, 'thanks', 'roger'])

/** Without polite words and hesitations at both ends. */
function bare(tokens: readonly Token[]): readonly Token[] {
  let begin = 0
  let end = tokens.length
  while (begin < end && LEADING.has(tokens[begin]?.text ?? '')) begin++
  while (end > begin && POLITE.has(tokens[end - 1]?.text ?? '')) end--
  return tokens.slice(begin, end)
}

/** A whole utterance as a command, or undefined. Never throws. */
export function readCommand({ text, tokens: all }: Transcript, names: CommandNames = {}): ReadCommand | undefined {
  const tokens = bare(all)
  if (tokens.length === 0 || tokens.length > LONGEST) return undefined
  const said = { tokens, squeezed: squeezedTokens(tokens), text }
  for (const command of COMMANDS) {
    const wording: Wording = WORDINGS[command]
    const read = wording.read(said, names)
    if (read) return { command, ...read }
  }
  return undefined
}

/** Tokens; whoever says more means somebody else. */
const LONGEST = 40

/** A reason by itself, as the answer to "say the reason". */
export function reasonIn(tokens: readonly Token[]): PassReason | undefined {
  const said = squeezedTokens(bare(tokens))
  return PASS_REASONS.find((reason) => REASONS[reason].some((text) => squeezedTokens(tokensOf(text)) === said))
}

/** What closes an optional item. */
export function isNotApplicable({ tokens }: Transcript): boolean {
  const said = squeezedTokens(bare(tokens))
  return NOT_APPLICABLE.some((text) => squeezedTokens(tokensOf(text)) === said)
}

/** "pass", "pass, not fitted", "pass it, simulator fault". */
function passIn(rest: readonly Token[]): { readonly argument?: string } | undefined {
  const words = bare(rest[0] && ['it', 'this', 'that', 'item'].includes(rest[0].text) ? rest.slice(1) : rest)
  return words.length === 0 ? {} : about(reasonIn(words))
}

/** Which of some named things the words are; undefined where none is, or two are. */
function named(
  words: readonly Token[],
  names: Readonly<Record<string, readonly string[]>> | undefined,
): string | undefined {
  const said = squeezedTokens(words.filter(({ text }) => text !== 'the' && text !== 'value'))
  const fits = Object.entries(names ?? {}).filter(([, texts]) =>
    texts.some((text) => squeezedTokens(tokensOf(text)) === said),
  )
  return fits.length === 1 ? fits[0]?.[0] : undefined
}
