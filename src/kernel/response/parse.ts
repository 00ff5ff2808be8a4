/**
 * Response text -> tree: a subset of the JSGF expansions (W3C note). Tokens, sequence, `( )`, `|`, `[ ]`, `<name>` for a
 * figure, `{tag}` after a token, figure or group. Commas and full stops are for the reader. Consecutive tokens form one
 * phrase; a tag ends the phrase and names it.
 */

import type { Expansion } from './expansion.ts'

/** `offset` is the place in the text, from 0. */
export interface ResponseProblem {
  readonly message: string
  readonly offset: number
}

export type ParsedExpansion = { readonly tree: Expansion } | { readonly problems: readonly ResponseProblem[] }

interface Symbol {
  readonly type: 'word' | 'figure' | 'tag' | '(' | ')' | '[' | ']' | '|' | 'end'
  readonly text: string
  readonly offset: number
}

const SYMBOLS = /\s+|[,.;]|<([^<>{}()[\]|]*)>|\{([^<>{}()[\]|]*)\}|([()[\]|])|([\p{L}\p{N}'’&-]+)|(_+|.)/gsu
/** Nesting deeper than any response has. */
const DEEPEST = 20

function symbolsOf(text: string, problems: ResponseProblem[]): Symbol[] {
  const symbols: Symbol[] = []
  for (const match of text.matchAll(SYMBOLS)) {
    const [, figure, tag, bracket, word, other] = match
    const offset = match.index
    if (figure !== undefined) {
      const name = figure.trim()
      if (!/^[A-Za-z_][\w-]*$/.test(name)) {
        problems.push({
          message: `<${figure}> is no figure name; a name is letters and digits, such as <trim>`,
          offset,
        })
      }
      symbols.push({ type: 'figure', text: name, offset })
    } else if (tag !== undefined) {
      if (tag.trim() === '') problems.push({ message: 'empty tag; a tag names its part, such as {left}', offset })
      symbols.push({ type: 'tag', text: tag.trim(), offset })
    } else if (bracket !== undefined) symbols.push({ type: bracket as '(', text: bracket, offset })
    else if (word !== undefined) symbols.push({ type: 'word', text: word.toLowerCase(), offset })
    else if (other !== undefined) problems.push({ message: unusable(other), offset })
  }
  symbols.push({ type: 'end', text: '', offset: text.length })
  return symbols
}

function unusable(character: string): string {
  if (character === '*' || character === '+') return `"${character}" is not used; write the words out`
  if (character === '/')
    return '"/" is not used; of two answers that are right write (one | other), of two parts say both'
  if (character.startsWith('_')) return `"${character}" is a blank; what is filled in is a figure, written <name>`
  if (character === '<' || character === '>') return `"${character}" without its partner; a figure is written <name>`
  if (character === '{' || character === '}') return `"${character}" without its partner; a tag is written {name}`
  if (/[“”„«»]/.test(character)) return `${character} is a printed quotation mark; write "..." around the whole text`
  return `"${character}" cannot stand in a response; use words, <figure>, ( ), [ ], | and {tag}`
}

/** Parses a response text; all problems are returned together. */
export function parseExpansion(text: string): ParsedExpansion {
  const problems: ResponseProblem[] = []
  const symbols = symbolsOf(text, problems)
  let at = 0
  const peek = () => symbols[at] as Symbol
  const problem = (message: string, offset: number) => {
    problems.push({ message, offset })
  }

  function expansion(depth: number): Expansion {
    const options = [sequence(depth)]
    while (peek().type === '|') {
      at++
      options.push(sequence(depth))
    }
    return options.length === 1 ? (options[0] as Expansion) : { type: 'either', options }
  }

  function sequence(depth: number): Expansion {
    const parts: Expansion[] = []
    let words: string[] = []
    const close = (tag?: string) => {
      if (words.length > 0) parts.push({ type: 'words', words, ...(tag ? { tag } : {}) })
      words = []
    }
    const begin = peek().offset
    for (;;) {
      const symbol = peek()
      if (symbol.type === 'end' || symbol.type === ')' || symbol.type === ']' || symbol.type === '|') break
      at++
      if (symbol.type === 'word') words.push(symbol.text)
      else if (symbol.type === 'tag') {
        const last = parts.at(-1)
        if (words.length > 0) close(symbol.text)
        else if (!last || last.type === 'optional' || last.tag) problem('nothing before the tag to name', symbol.offset)
        else parts[parts.length - 1] = { ...last, tag: symbol.text }
      } else {
        close()
        parts.push(symbol.type === 'figure' ? { type: 'figure', name: symbol.text } : group(symbol, depth + 1))
      }
    }
    close()
    if (parts.length === 0) problem('nothing here; write words, a <figure> or a group', begin)
    return parts.length === 1 ? (parts[0] as Expansion) : { type: 'sequence', parts }
  }

  function group(open: Symbol, depth: number): Expansion {
    if (depth > DEEPEST) {
      problem(`brackets nested deeper than ${DEEPEST}`, open.offset)
      at = symbols.length - 1
      return { type: 'words', words: [] }
    }
    const inner = expansion(depth)
    const wanted = open.type === '(' ? ')' : ']'
    if (peek().type === wanted) at++
    else problem(`"${open.text}" is not closed by "${wanted}"`, open.offset)
    return open.type === '(' ? inner : { type: 'optional', part: inner }
  }

  const tree = expansion(0)
  while (peek().type !== 'end') {
    problem(`"${peek().text}" without an opening bracket`, peek().offset)
    at++
    if (peek().type !== 'end') expansion(0)
  }
  if (problems.length > 0) return { problems: problems.toSorted((a, b) => a.offset - b.offset) }
  return { tree }
}
