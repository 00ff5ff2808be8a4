/**
 * YAML text -> document, or the first mistake in it. One slip makes the rest of a file look wrong to a parser, so what
 * comes behind the first is not told; and where a bracket or quotation mark is never closed, the mistake stands where
 * it opens, not where the parser gives up.
 */

import { Composer, type CST, type Document, Lexer, type ParsedNode, Parser, type YAMLError } from 'yaml'
import { DEEPEST, MOST_CHARACTERS } from '../kernel/bounds.ts'
import { quoted } from '../kernel/quoted.ts'
import { NO_DIRECTIVE, notClosed, tooDeep, wordsFor } from './yamlMistakes.ts'

export interface Mistake {
  /** Of the problem that it makes; `yaml.malformed` where it is left out. */
  readonly code?: 'id.duplicate'
  /** Where it stands in the text, from 0. */
  readonly offset: number
  readonly message: string
}

export type ReadYaml = { readonly document: Document.Parsed<ParsedNode> } | { readonly mistake: Mistake }

/** One text is asked for by the check, the form and what stands beside it: it is read once. Nobody changes a document. */
const last = new Map<string, ReadYaml>()
const MOST_KEPT = 8

export function readYaml(text: string): ReadYaml {
  const read = last.get(text) ?? readAnew(text)
  last.delete(text)
  last.set(text, read)
  const [oldest] = last.keys()
  if (last.size > MOST_KEPT && oldest !== undefined) last.delete(oldest)
  return read
}

function readAnew(text: string): ReadYaml {
  const unreadable = unreadableIn(text)
  if (unreadable) return { mistake: unreadable }
  const { tokens, mistake, isTooDeep } = tokensOf(text)
  // That names stand once is held where they are read: here it would take the square of their number.
  const composer = new Composer({ prettyErrors: false, uniqueKeys: false })
  const [document, second] = composer.compose(tokens, true, text.length)
  const found = [document, second].flatMap((one) => (one ? [...one.errors, ...one.warnings] : []))
  // Brackets that stand open where reading ended are no mistake of their own.
  const own = isTooDeep ? found.filter(({ message }) => !message.startsWith('Flow')) : found
  const error = firstOf(own, ({ pos }) => pos[0])
  const extra = second && {
    offset: second.range[0],
    message: 'a second document ("---") begins here; a file holds one',
  }
  const all = [mistake, error && inWords(error, text), extra].filter((one) => one !== undefined)
  const first = firstOf(all, ({ offset }) => offset)
  return first || !document ? { mistake: first ?? { offset: 0, message: 'the file is empty' } } : { document }
}

function firstOf<T>(things: readonly T[], offsetOf: (thing: T) => number): T | undefined {
  return things.toSorted((one, other) => offsetOf(one) - offsetOf(other))[0]
}

function inWords(error: YAMLError, text: string): Mistake {
  const [offset] = error.pos
  return { offset, message: wordsFor(error, text, offset) }
}

/** What no YAML file may be. */
function unreadableIn(text: string): Mistake | undefined {
  if (text.length > MOST_CHARACTERS) {
    return { offset: 0, message: `the file has ${text.length} characters; at most ${MOST_CHARACTERS} can be read` }
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  const unseen = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f]/.exec(text)
  if (!unseen) return undefined
  return { offset: unseen.index, message: `a control character, ${quoted(unseen[0])}, stands here; take it out` }
}

/** Brackets end where lines are no longer indented for them; the lexer says so by this. */
const BRACKETS_END = '\u0018'

interface Tokens {
  readonly tokens: readonly CST.Token[]
  readonly mistake?: Mistake
  readonly isTooDeep?: boolean
}

/** Tokens up to the first thing that cannot be one, or that is never closed. */
function tokensOf(text: string): Tokens {
  const parser = new Parser()
  const tokens: CST.Token[] = []
  const open: number[] = []
  let mistake: Mistake | undefined
  for (const lexeme of new Lexer().lex(text)) {
    mistake = unclosed(text, lexeme, parser.offset, open)
    if (mistake) break
    for (const token of parser.next(lexeme)) {
      if (token.type === 'error') mistake ??= unexpected(text, token)
      else if (token.type === 'directive') mistake ??= { offset: token.offset, message: NO_DIRECTIVE }
      else tokens.push(token)
    }
    if (mistake) break
    if (parser.stack.length <= DEEPEST) continue
    const offset = parser.offset - lexeme.length
    return { tokens: [...tokens, ...parser.end()], mistake: { offset, message: tooDeep() }, isTooDeep: true }
  }
  tokens.push(...parser.end())
  const last = open.at(-1)
  if (last !== undefined) mistake ??= { offset: last, message: notClosed(text.charAt(last)) }
  return { tokens, ...(mistake && { mistake }) }
}

/** Whether this piece of the text shows that a bracket or a quotation mark is never closed; `open` keeps brackets. */
function unclosed(text: string, lexeme: string, offset: number, open: number[]): Mistake | undefined {
  const sign = lexeme.charAt(0)
  const at = (opening: number): Mistake => ({ offset: opening, message: notClosed(text.charAt(opening)) })
  if (lexeme === '[' || lexeme === '{') open.push(offset)
  if (lexeme === ']' || lexeme === '}') {
    const opening = open.pop()
    const isOther = opening !== undefined && text.charAt(opening) !== (lexeme === ']' ? '[' : '{')
    return isOther ? at(opening) : undefined
  }
  if (sign === '"' || sign === "'") return lexeme.length > 1 && lexeme.endsWith(sign) ? undefined : at(offset)
  const last = open.at(-1)
  return lexeme === BRACKETS_END && last !== undefined ? at(last) : undefined
}

function unexpected(text: string, { offset, message }: { readonly offset: number; readonly message: string }): Mistake {
  return { offset, message: wordsFor({ code: 'UNEXPECTED_TOKEN', message }, text, offset) }
}
