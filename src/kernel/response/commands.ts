/** The standard phrases: what they are, and how pilots say them. */

import { type Token, tokensOf } from '../numbers/tokens.ts'
import { HARMLESS, HESITATIONS } from './lexicon.ts'
import type { Command } from './model.ts'

export interface ReadCommand {
  readonly command: Command
  /** A figure for `confirm`, a list for `call`, a reason for `pass`, words for `remark` and `correction`. */
  readonly argument?: string
}

export interface CommandNames {
  /** A yes-or-no question is open: only then are affirm and negative commands. */
  readonly yesNo?: boolean
  /** List -> its spoken names. */
  readonly lists?: Readonly<Record<string, readonly string[]>>
  /** Figure -> its spoken names. */
  readonly confirmable?: Readonly<Record<string, readonly string[]>>
}

const PHRASES: readonly (readonly [Command, readonly string[]])[] = [
  [
    'sayAgain',
    ['say again', 'say it again', 'say again all', 'repeat', 'repeat that', 'come again', 'pardon', 'what was that'],
  ],
  ['standBy', ['stand by', 'standby', 'stand by one', 'standby one', 'wait', 'wait one', 'hold on', 'one moment']],
  ['continue', ['continue', 'go on', 'go ahead', 'resume', 'ready to continue', 'carry on']],
  ['disregard', ['disregard', 'disregard that', 'disregard my last', 'disregard last']],
  [
    'whatIsLeft',
    [
      'what is left',
      "what's left",
      'whats left',
      'what remains',
      'what is remaining',
      "what's remaining",
      'items left',
      'items remaining',
      'what is open',
      "what's open",
    ],
  ],
  ['goBack', ['go back one', 'go back', 'back one', 'go back one item', 'previous item', 'one back']],
  ['fromTop', ['from the top', 'start again from the top', 'from the beginning', 'start over', 'restart the list']],
  ['radioCheck', ['radio check', 'how do you read', 'do you read', 'do you read me', 'do you hear me']],
  ['leaveOpen', ['leave it open', 'leave open', 'leave this open', 'leave that open', 'leave item open']],
]

const REASONS: readonly (readonly [string, readonly string[]])[] = [
  ['notFitted', ['not fitted', 'not installed', 'not equipped']],
  ['simulatorFault', ['simulator fault', 'sim fault', 'simulator failure', 'fault of the simulator']],
  ['instructorsWord', ["instructor's word", 'instructors word', 'instructor word', 'on instructor word']],
  ['training', ['training', 'for training']],
]

const AFFIRM = new Set(['affirm', 'affirmative', 'yes', 'affirm that'])
const NEGATIVE = new Set(['negative', 'no'])

const commandByPhrase: ReadonlyMap<string, Command> = new Map(
  PHRASES.flatMap(([command, phrases]) =>
    phrases.map((phrase) => [squeezedTokens(tokensOf(phrase)), command] as const),
  ),
)
const reasonByPhrase: ReadonlyMap<string, string> = new Map(
  REASONS.flatMap(([reason, phrases]) => phrases.map((phrase) => [squeezedTokens(tokensOf(phrase)), reason] as const)),
)

/** Words without spaces and apostrophes: "stand by" is "standby". */
function squeezedTokens(tokens: readonly Token[]): string {
  return tokens
    .map(({ canon }) => canon)
    .join('')
    .replaceAll("'", '')
}

const POLITE = new Set([...HESITATIONS, 'please', 'okay', 'ok', 'and', 'so', 'well', 'now', 'sir', 'captain', 'then'])

/** Without polite words and hesitations at both ends. */
function bare(tokens: readonly Token[]): readonly Token[] {
  let begin = 0
  let end = tokens.length
  while (begin < end && POLITE.has(tokens[begin]?.text ?? '')) begin++
  while (end > begin && POLITE.has(tokens[end - 1]?.text ?? '')) end--
  return tokens.slice(begin, end)
}

/** A whole utterance as a command, or undefined. Never throws. */
export function readCommand(text: string, names: CommandNames = {}): ReadCommand | undefined {
  return commandOf(tokensOf(text), text, names)
}

/** The same for tokens; `text` is where a remark's own words are taken from. */
export function commandOf(all: readonly Token[], text: string, names: CommandNames): ReadCommand | undefined {
  const tokens = bare(all)
  const first = tokens[0]
  if (!first || tokens.length > 40) return undefined
  const rest = tokens.slice(1)
  if (first.text === 'remark')
    return {
      command: 'remark',
      argument: text
        .slice(first.end)
        .replace(/^[\s,.:;-]+/, '')
        .trim(),
    }
  if (first.text === 'correction') {
    return {
      command: 'correction',
      argument: text
        .slice(first.end)
        .replace(/^[\s,.:;-]+/, '')
        .trim(),
    }
  }
  const said = squeezedTokens(tokens)
  const command = commandByPhrase.get(said)
  if (command) return { command }
  if (names.yesNo && AFFIRM.has(said)) return { command: 'affirm' }
  if (names.yesNo && NEGATIVE.has(said)) return { command: 'negative' }
  if (first.text === 'pass') return pass(rest)
  if (first.text === 'confirm') {
    const figure = named(rest, names.confirmable)
    return figure === undefined ? undefined : { command: 'confirm', argument: figure }
  }
  const list = called(tokens, names.lists)
  return list === undefined ? undefined : { command: 'call', argument: list }
}

/** "pass", "pass, not fitted", "pass it, simulator fault". */
function pass(rest: readonly Token[]): ReadCommand | undefined {
  const words = bare(rest[0] && ['it', 'this', 'that', 'item'].includes(rest[0].text) ? rest.slice(1) : rest)
  if (words.length === 0) return { command: 'pass' }
  const reason = reasonByPhrase.get(squeezedTokens(words))
  return reason === undefined ? undefined : { command: 'pass', argument: reason }
}

/** The reason by itself, as the answer to "say the reason". */
export function readReason(text: string): string | undefined {
  return reasonByPhrase.get(squeezedTokens(bare(tokensOf(text))))
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

const LIST_WORDS = new Set(['checklist', 'checklists', 'list', 'check', 'checks', 'the'])
const ASKING = new Set(['please', 'call', 'read', 'run', 'give', 'me', 'start', 'begin', 'lets', "let's", 'have', 'do'])

/** "Before start checklist, please": a list's name, with the words around it that pilots use. */
function called(tokens: readonly Token[], lists: CommandNames['lists']): string | undefined {
  if (!lists) return undefined
  for (const [list, names] of Object.entries(lists)) {
    for (const name of names) if (isName(tokens, tokensOf(name))) return onlyOne(tokens, lists) ? list : undefined
  }
  return undefined
}

function onlyOne(tokens: readonly Token[], lists: NonNullable<CommandNames['lists']>): boolean {
  return Object.values(lists).filter((names) => names.some((name) => isName(tokens, tokensOf(name)))).length === 1
}

function isName(tokens: readonly Token[], name: readonly Token[]): boolean {
  const core = (list: readonly Token[]) => squeezedTokens(list.filter(({ text }) => !LIST_WORDS.has(text)))
  const wanted = core(name)
  if (wanted === '') return squeezedTokens(tokens) === squeezedTokens(name)
  for (let begin = 0; begin < tokens.length; begin++) {
    if (core(tokens.slice(begin)) === wanted) return true
    const { text = '' } = tokens[begin] ?? {}
    if (!ASKING.has(text) && !HARMLESS.has(text)) return false
  }
  return false
}
