/** Pasted text -> its lines, in the signs that the rest of this folder knows. Line numbers stay those of the text. */

import { MOST_CHARACTERS } from '../../kernel/bounds.ts'

export interface SourceLine {
  /** From 1. */
  readonly line: number
  /** Without spaces around it; tabs inside it stay. */
  readonly text: string
  /** Columns before the text. */
  readonly indent: number
}

export interface PaperText {
  /** Also the blank ones, so that what stands apart can be told. */
  readonly lines: readonly SourceLine[]
  /** The first line that was not read, where the text is longer than a pack may be. */
  readonly unreadFrom?: number
  /** Lines that are too long to be lines of a checklist; not read. */
  readonly tooLong: readonly { readonly line: number; readonly begins: string }[]
}

/** Letters of a line of a checklist at most; what is longer is prose, or no text at all. */
const LONGEST_LINE = 400
const SHOWN_OF_LONG = 60
const TAB = 8

/** Signs that mean the same here, each as the one that is looked for. */
const SAME: Readonly<Record<string, string>> = {
  '…': '...',
  '·': '.',
  '∙': '.',
  '․': '.',
  '‒': '-',
  '–': '-',
  '—': '-',
  '―': '-',
  '−': '-',
  '‐': '-',
  '‑': '-',
  '─': '-',
  '━': '-',
  '═': '=',
  '│': '|',
  '┃': '|',
  '║': '|',
  '“': '"',
  '”': '"',
  '„': '"',
  '‘': "'",
  '’': "'",
  '→': '->',
  '⇒': '->',
  '➔': '->',
  '»': '>>',
  '►': '•',
  '▪': '•',
  '■': '•',
  '●': '•',
  '◦': '•',
  '□': '☐',
  '▢': '☐',
  '◻': '☐',
  '❏': '☐',
  '❑': '☐',
  '☑': '☐',
  '☒': '☐',
  '✓': '☐',
  '✔': '☐',
  '≥': '>=',
  '≤': '<=',
}

function plain(text: string): string {
  return text
    .replace(/[\p{Zs}\p{Zl}\p{Zp}\f\v]/gu, ' ')
    .replace(/[^\P{C}\t]/gu, '')
    .replace(/[^\x20-\x7e\t]/gu, (sign) => SAME[sign] ?? sign)
}

export function paperText(text: string): PaperText {
  const lines: SourceLine[] = []
  const tooLong: PaperText['tooLong'][number][] = []
  let read = 0
  for (const [index, raw] of text.split(/\r\n|\n|\r/).entries()) {
    read += raw.length + 1
    if (read > MOST_CHARACTERS) return { lines, tooLong, unreadFrom: index + 1 }
    const isLong = raw.length > LONGEST_LINE
    if (isLong) tooLong.push({ line: index + 1, begins: plain(raw.slice(0, SHOWN_OF_LONG)).trim() })
    const clean = isLong ? '' : plain(raw)
    const trimmed = clean.trim()
    lines.push({ line: index + 1, text: trimmed, indent: columnsBefore(clean) })
  }
  return { lines, tooLong }
}

function columnsBefore(text: string): number {
  let column = 0
  for (const sign of text) {
    if (sign === '\t') column += TAB - (column % TAB)
    else if (sign === ' ') column += 1
    else break
  }
  return column
}
