/** What a line of a checklist on paper is, by itself and by what stands around it. */

import { CONFIRMATIONS, isStateWord } from '../../kernel/response/lexicon.ts'
import { UNITS_WRITTEN } from './answerWords.ts'
import { BLANK, type Divider, dividedLine, withBlanks } from './cells.ts'
import { isOrder } from './looseLines.ts'
import type { SourceLine } from './paperText.ts'

export type LineKind =
  | { readonly is: 'blank' }
  | { readonly is: 'rule' }
  /** `sure`: the paper marks it as one. */
  | { readonly is: 'heading'; readonly text: string; readonly sure: boolean }
  | {
      readonly is: 'item'
      readonly cells: readonly string[]
      readonly by: Divider
      /** Columns before its last cell. */
      readonly column: number
      readonly mark: string
      readonly isListed: boolean
    }
  /** Words without an answer: an item, or half of one. */
  | { readonly is: 'words'; readonly text: string; readonly isListed: boolean; readonly mark: string }
  | { readonly is: 'note'; readonly type: 'caution' | 'note'; readonly text: string }
  | { readonly is: 'leftOut'; readonly why: string }
  | { readonly is: 'heads' }
  /** What the lines further in below it are parts of. */
  | { readonly is: 'above' }

export interface KnownLine extends SourceLine {
  readonly kind: LineKind
  /** The line that it stands further in below. */
  readonly under?: { readonly text: string; readonly hasAnswer: boolean }
}

const RULE_SIGNS = new Set(['-', '=', '_', '*', '~', '+', '#', '.', '|', ' '])

export function isRule(text: string): boolean {
  return text.length >= 3 && [...text].every((sign) => RULE_SIGNS.has(sign)) && /[-=_*~+#.]/.test(text)
}

/** Words that name a part of a flight. */
const OF_PHASES = new Set(
  `checklist checklists check checks list procedure procedures before after preflight pre-flight prestart pre-start start starting
  taxi takeoff take-off departure climb cruise descent approach landing shutdown shut-down securing secure parking cockpit cabin
  preparation run-up runup exterior external internal interior walkround walkaround walk-around lineup line-up
  pushback turnaround transit postflight post-flight phase flow after-start before-start normal abnormal emergency
  arrival termination leaving powerup power-up`.split(/\s+/),
)

const PARENS_ONLY = /^\([^()]*\)$/
const isCapitals = (text: string) => /\p{Lu}{2}/u.test(text) && !/\p{Ll}/u.test(text)
export const hasPhaseWord = (text: string) =>
  text
    .toLowerCase()
    .split(/[ /:]+/)
    .some((word) => OF_PHASES.has(word))

/** A number, bullet or tick box at the beginning is no part of what is said. */
export interface Unmarked {
  readonly text: string
  readonly isListed: boolean
  /** A sign of the paper's own, such as an asterisk. */
  readonly mark: string
  readonly number?: number
}

const NUMBERED = /^\(?(\d{1,3}(?:\.\d{1,3}){0,3}|[a-zA-Z])[.):]\)?[ \t]+/
/** "2.4 Oil pressure": a number of two levels needs no sign behind it, but may be a value with its unit. */
const SECTIONED = /^\d{1,2}(?:\.\d{1,2}){1,3}[ \t]+(?=\p{L})/u
const BOXES = /^(?:[-•o>+☐]-? |\[[ xX]?\] ?|\( ?\) ?|☐)/

export function unmarked(line: string, expected: number): Unmarked {
  let text = line
  let [isListed, mark] = [false, '']
  let number: number | undefined
  for (let rounds = 0; rounds < 4; rounds++) {
    const before = text
    const counted = NUMBERED.exec(text)
    const bare = counted ? null : /^(\d{1,3}) +(?=\p{L})/u.exec(text)
    if (counted && text.length > counted[0].length) {
      number = Number(counted[1])
      text = text.slice(counted[0].length)
    } else if (bare && Number(bare[1]) === expected) {
      number = expected
      text = text.slice(bare[0].length)
    } else {
      const section = SECTIONED.exec(text)?.[0] ?? ''
      const [next = ''] = text.slice(section.length).split(/[ \t]/)
      // "3.1 RPM -- 2000": behind a value with its unit no answer follows.
      const isAsked = dividedLine(text.slice(section.length))?.cells[0] === next
      if (isAsked || !UNITS_WRITTEN.has(next.toLowerCase())) text = text.slice(section.length)
    }
    const box = BOXES.exec(text)
    if (box) text = text.slice(box[0].length)
    else if (/^\* \S/.test(text)) text = text.slice(2)
    else if (/^[*†‡§]+[\p{L}\d]/u.test(text)) {
      const signs = /^[*†‡§]+/.exec(text)?.[0] ?? ''
      mark = signs
      text = text.slice(signs.length)
    } else if (text.startsWith(`${BLANK} `) && !UNITS_WRITTEN.has((text.split(' ')[1] ?? '').toLowerCase())) {
      text = text.slice(BLANK.length + 1)
    }
    text = text.trim()
    if (text === before) break
    isListed = true
  }
  return { text, isListed, mark, ...(number !== undefined && !Number.isNaN(number) && { number }) }
}

const NOTE = /^(note|notes|nb|n\.b\.|remark|remarks|info|tip|see|ref|hint|remember)\b ?\d{0,2} ?[:.-]/i
/** "Warning lights ..... out" is an item: an answer stands behind leaders, and more than the word before them. */
const isItemOfCautions = (text: string) => /^[a-z]+ +[a-z].*?(?:\.{3}|…|·{3}|_{3}|\t)/i.test(text)
/** However it is dressed: "(CAUTION: ...)", "** Warning **", "NOTE/CAUTION:", "NOTE - WARNING". */
const CAUTION =
  /^[^\p{L}\p{N}]*(?:⚠|(?:notes?\b[^\p{L}\p{N}]*)?(?:caution|cautions|warning|warnings|attention|danger)\b(?:[^\p{L}\p{N}]*(?:caution|warning)s?\b)?)/iu

/** What a line warns of; undefined where it is no caution. */
function cautionIn(text: string): string | undefined {
  const [sign] = CAUTION.exec(text) ?? []
  if (sign === undefined || isItemOfCautions(text)) return undefined
  const isInParens = text.startsWith('(') && text.endsWith(')')
  const rest = text.slice(sign.length, isInParens ? -1 : undefined)
  // The numbers and brackets of what it says stay.
  return rest.replace(/^[^\p{L}\p{N}("'+-]+|^-+ */u, '').trim()
}

const FOOTERS: readonly (readonly [RegExp, string])[] = [
  [/\bpage \d{1,4}\b|\bpg\.? \d{1,4}\b|^p\.? ?\d{1,4}$/i, 'a page number'],
  [/^[-– ]*\d{1,4}[-– ]*$|^\d{1,4} ?(?:\/|of) ?\d{1,4}$/i, 'a page number'],
  [/\b(?:rev|revision|issue|edition|version|amendment)\b[.: ]*\d/i, 'an issue'],
  [/\b(?:effective|dated|printed)\b.*\d/i, 'a date'],
  [/^\d{1,2}[ ./-](?:\d{1,2}|[a-z]{3,9})[ ./-]\d{2,4}$/i, 'a date'],
  [
    /simulat(?:or|ion) (?:use|only|training)|not for (?:real|flight|use|operational)|training (?:use )?only|for training/i,
    'a notice',
  ],
  [/uncontrolled|copyright|©|all rights|intentionally (?:left )?blank/i, 'a notice'],
  [/^\(?continue[sd]?\b|^\(?cont'?d?\b\.?|continued (?:on|over)/i, 'a pointer to another page'],
]

export function leftOut(text: string): string | undefined {
  const footer = FOOTERS.find(([pattern]) => pattern.test(text))
  if (footer) return footer[1]
  const low = text.toLowerCase()
  const isOfList = /\b(?:check ?list|checks|list)\b/.test(low)
  return isOfList && /\bcompleted?\b/.test(low)
    ? 'the call that the list is complete, which Otherseat makes'
    : undefined
}

const HEADS = new Set([
  'challenge',
  'response',
  'item',
  'action',
  'condition',
  'check',
  'answer',
  'action/condition',
  'required',
  'setting',
  'by',
  'crew',
  'who',
  'status',
  'no',
  'no.',
  'system',
  'task',
  'position',
])
const isHeads = (cells: readonly string[]) => cells.length > 1 && cells.every((cell) => HEADS.has(cell.toLowerCase()))

/** What decorates a heading is taken off; undefined where nothing does. */
function undecorated(text: string): string | undefined {
  const hashes = /^#{1,6} */.exec(text)?.[0] ?? ''
  if (hashes !== '') return text.slice(hashes.length).replace(/#+$/, '').trim()
  if (text.startsWith('|') && text.indexOf('|', 1) < text.length - 1) return undefined
  // "Cockpit prep >>": on to its items.
  if (/^\p{L}[^>]*>>$/u.test(text)) return text.slice(0, -2).trim()
  const framed = /^([-=*~_<[|+]{1,80}) ?(\S.*)$/.exec(text)
  if (!framed || framed[1] === undefined || framed[2] === undefined) return undefined
  let inner = framed[2]
  while (inner !== '' && /[-=*~_>\]|+ ]/.test(inner.charAt(inner.length - 1))) inner = inner.slice(0, -1)
  const closes = inner.length < framed[2].length
  const isFrame = framed[1].length > 1 || '[<|*'.includes(framed[1])
  return closes && isFrame && /\p{L}{2}/u.test(inner) ? inner.trim() : undefined
}

/** Each line with what it is. */
export function knownLines(lines: readonly SourceLine[]): KnownLine[] {
  const known: KnownLine[] = []
  let expected = 1
  const first = lines.findIndex(({ text }) => text !== '')
  for (const [index, line] of lines.entries()) {
    const around = {
      before: lines[index - 1]?.text ?? '',
      after: lines[index + 1]?.text ?? '',
      isFirst: index === first,
    }
    const blanked = withBlanks(line.text)
    const bare = unmarked(blanked, expected)
    if (bare.number !== undefined) expected = bare.number + 1
    const kind = kindOf(line.text, bare, around)
    if (kind.is === 'heading') expected = 1
    known.push({
      ...line,
      kind:
        kind.is === 'item'
          ? { ...kind, column: kind.column + line.indent + (blanked.length - bare.text.length) }
          : kind,
    })
  }
  return known
}

interface Around {
  readonly before: string
  readonly after: string
  /** Nothing stands above it. */
  readonly isFirst: boolean
}

function kindOf(line: string, bare: Unmarked, { before, after, isFirst }: Around): LineKind {
  if (line === '') return { is: 'blank' }
  if (isRule(line)) return { is: 'rule' }
  const { text, isListed, mark } = bare
  const caution = cautionIn(text)
  if (caution !== undefined) return { is: 'note', type: 'caution', text: caution }
  if (NOTE.test(text)) return { is: 'note', type: 'note', text: afterSign(text) }
  if (PARENS_ONLY.test(text) && text.length > 4 && !/^\(?cont/i.test(text))
    return { is: 'note', type: 'note', text: text.slice(1, -1).trim() }
  const isUnderlined = isRule(after) && !after.startsWith('|') && !/^[.]/.test(after)
  const divided = dividedLine(text)
  const why = leftOut(text)
  if (why !== undefined && !(divided && endsInAnswer(divided.cells))) {
    if (!(isUnderlined && why.startsWith('the call'))) return { is: 'leftOut', why }
  }
  if (divided && isHeads(divided.cells)) return { is: 'heads' }
  const plain = undecorated(line)
  if (plain !== undefined && plain !== '' && !(divided && divided.by !== 'bar' && endsInAnswer(divided.cells))) {
    if (!/\p{L}/u.test(plain)) return { is: 'rule' }
    return { is: 'heading', text: plain, sure: true }
  }
  const ends = text.endsWith(':') && text.length > 2
  const isDivided =
    divided !== undefined && !(divided.by === 'colon' && ends) && divided.cells.some((cell) => cell !== '')
  if (isDivided && divided) {
    const isTitle =
      (divided.by === 'dash' || divided.by === 'colon' || divided.by === 'columns' || divided.by === 'capitals') &&
      !endsInAnswer(divided.cells)
    const isLone =
      !isListed &&
      ((after === '' && (isFirst || (before === '' && hasPhaseWord(text)))) || (isFirst && hasPhaseWord(text)))
    if (isTitle && (isUnderlined || isLone)) return { is: 'heading', text, sure: isUnderlined }
    // Heads of two columns side by side.
    const areHeads =
      divided.by === 'columns' &&
      !isListed &&
      divided.cells.every((cell) => hasPhaseWord(cell) && !endsInAnswer([cell]))
    if (areHeads) return { is: 'heading', text: divided.cells.join(', '), sure: false }
    const cells = divided.cells.map(unbold)
    const [only, ...more] = cells.filter((cell) => cell !== '')
    if (divided.by === 'bar' && only !== undefined && more.length === 0)
      return { is: 'heading', text: only, sure: cells[0] === only }
    return { is: 'item', cells, by: divided.by, column: divided.column, mark, isListed }
  }
  const words = text.split(' ').length
  if (isUnderlined && words <= 10) return { is: 'heading', text: ends ? text.slice(0, -1) : text, sure: true }
  if (ends && words <= 8)
    return {
      is: 'heading',
      text: text.slice(0, -1).trim(),
      sure: !isListed && (before === '' || isCapitals(text)) && hasPhaseWord(text) && !/^(if|when) /i.test(text),
    }
  const isApart = before === '' || isRule(before)
  const said = text.replace(/ \([^()]*\)$/, '')
  if (isCapitals(text) && words <= 8 && (isApart || (hasPhaseWord(text) && !isListed)) && !endsInAnswer(['', said])) {
    return { is: 'heading', text, sure: isApart && hasPhaseWord(text) }
  }
  if (!isListed && words <= 7 && /\b(?:check ?list|checks|list|procedure|flow)$/i.test(text))
    return { is: 'heading', text, sure: isApart }
  const isShort = words <= 4 || (words <= 8 && after === '')
  if (
    !isListed &&
    isApart &&
    isShort &&
    hasPhaseWord(text) &&
    !endsInAnswer(['', text]) &&
    !/[.!]$/.test(text) &&
    !isOrder(text)
  )
    return { is: 'heading', text, sure: false }
  return { is: 'words', text, isListed, mark }
}

/** Without the signs that print words in bold. */
const unbold = (cell: string) => (cell.startsWith('**') && cell.endsWith('**') ? cell.slice(2, -2) : cell)

function afterSign(text: string): string {
  const found = /^[A-Za-z.]{2,12} ?\d{0,2} ?[:.!-]{0,2} */.exec(text)?.[0] ?? ''
  return text.slice(found.length).trim()
}

/** Whether the last words are an answer as answers are: a state, a confirmation, a place to fill in. */
export function endsInAnswer(cells: readonly string[]): boolean {
  const last = (cells.at(-1) ?? '').toLowerCase()
  if (last.includes(BLANK)) return true
  const words = last.split(/[^\p{L}\p{N}]+/u).filter(Boolean)
  const end = words.at(-1)
  if (end === undefined || OF_PHASES.has(end) || OF_PHASES.has(words.slice(-2).join('-'))) return false
  return isStateWord(end) || CONFIRMATIONS.has(end)
}
