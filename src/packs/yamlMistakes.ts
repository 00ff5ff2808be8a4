/** What the parser finds wrong, in the words of who writes packs: what is there, and what would be right. */

import type { YAMLError } from 'yaml'
import { DEEPEST } from '../kernel/bounds.ts'
import { quoted } from '../kernel/quoted.ts'

/** A place in a text, from which a message is made. */
interface Spot {
  /** What the parser says. */
  readonly message: string
  /** Its line from the place on. */
  readonly here: string
  /** Its line before the place. */
  readonly before: string
}

const NO_COLON = 'a name needs a colon and a space behind it: "name: value"'
const NO_DASH_SPACE = 'a line of a list begins with a dash and a space: "- value"'
const DASH = 'a list ("- ...") cannot begin here; write it on lines of its own, under the name that it belongs to'
const COLUMN = 'this line begins in a column of its own; names and dashes that belong together begin in the same one'
const BELOW =
  'the line below is indented as if it belonged to this value; begin it in the column of its neighbours, or leave nothing behind the colon'
const COLON_IN_TEXT = 'a text with a colon and a space in it belongs in quotes'
const REST = 'nothing may follow a closing quote or bracket; put the whole text in quotes'
const COMMA = 'a comma is missing here, or one too many'
const ANCHOR = 'a text that begins with "&", "*" or "!" belongs in quotes'
/** Also where the library knows it: in YAML 1.1 "071" is 57. */
export const NO_DIRECTIVE = 'a line that begins with "%" is no part of a pack or sheet; leave it out'
export const TWICE = 'this name stands here twice; each may stand once'
const BROKEN = 'this cannot be read as YAML; look at the quotes, brackets and indentation here'

/** The codes of the library; one that it adds does not compile here. */
const WORDS: Readonly<Record<YAMLError['code'], string | ((spot: Spot) => string)>> = {
  ALIAS_PROPS: ANCHOR,
  BAD_ALIAS: ANCHOR,
  BAD_COLLECTION_TYPE: ANCHOR,
  BAD_DIRECTIVE: NO_DIRECTIVE,
  BAD_DQ_ESCAPE: ({ here }) =>
    `${quoted(here.slice(0, 2))} means nothing inside double quotes; write "\\\\" for a backslash, or use single quotes`,
  BAD_INDENT: COLUMN,
  BAD_PROP_ORDER: ANCHOR,
  BAD_SCALAR_START: ({ here }) => `a text that begins with ${quoted(here.slice(0, 1))} belongs in quotes`,
  BLOCK_AS_IMPLICIT_KEY: ({ here, before }) => {
    if (/^\s*-[^\s-]/.test(before)) return NO_DASH_SPACE
    return /:(\s|$)/.test(here.replace(/\s#.*/, '')) ? COLON_IN_TEXT : BELOW
  },
  BLOCK_IN_FLOW: ({ here }) =>
    here.startsWith('- ') ? DASH : 'a comma is missing in these brackets, between this value and the name behind it',
  DUPLICATE_KEY: TWICE,
  IMPOSSIBLE: BROKEN,
  KEY_OVER_1024_CHARS:
    'the name before this colon is longer than a thousand letters; is a line break or a quote missing?',
  MISSING_CHAR: ({ message, here }) => {
    if (message.startsWith('Comments')) return 'a remark needs a space before its "#"'
    if (message.startsWith('Sequence')) return COLUMN
    if (message.startsWith('Missing ,')) return COMMA
    return here.startsWith('- ') ? DASH : NO_COLON
  },
  MULTILINE_IMPLICIT_KEY: ({ here }) => (here.startsWith('- ') ? DASH : NO_COLON),
  MULTIPLE_ANCHORS: ANCHOR,
  MULTIPLE_DOCS: 'a second document begins here; a file holds one',
  MULTIPLE_TAGS: ANCHOR,
  NON_STRING_KEY: NO_COLON,
  RESOURCE_EXHAUSTION: tooDeep(),
  TAB_AS_INDENT: 'a tab indents this line; use spaces',
  TAG_RESOLVE_FAILED: ANCHOR,
  UNEXPECTED_TOKEN: ({ message, here }) => {
    const sign = here.slice(0, 1)
    if (message.startsWith('Block scalar'))
      return `${quoted(sign)} begins a text of several lines, on the line below it`
    if (/^[\]}]/.test(here)) return `${quoted(sign)} closes a bracket that was never opened`
    if (here.startsWith('- ')) return DASH
    if (message.endsWith('at node end')) return REST
    return message.startsWith('Unexpected ,') || message.startsWith('Unexpected empty') ? COMMA : BROKEN
  },
}

export function tooDeep(): string {
  return `more than ${DEEPEST} lists and names inside one another; is a bracket or the indentation wrong?`
}

export function wordsFor({ code, message }: Pick<YAMLError, 'code' | 'message'>, text: string, offset: number): string {
  const begin = text.lastIndexOf('\n', offset - 1) + 1
  const end = text.indexOf('\n', offset)
  const spot = { message, here: text.slice(offset, end < 0 ? undefined : end), before: text.slice(begin, offset) }
  const words = WORDS[code]
  return typeof words === 'string' ? words : words(spot)
}

export function notClosed(opening: string): string {
  const closing = { '[': ']', '{': '}' }[opening]
  if (closing !== undefined) return `"${opening}" is not closed by "${closing}"`
  return `the text that begins here is not closed by ${opening === '"' ? '"' : "'"}`
}
