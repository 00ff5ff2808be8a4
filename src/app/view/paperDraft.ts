/** A draft from paper as a screen shows it: its items as they would be flown, and what is open, each with its line. */

import { ownOf } from '../../kernel/own.ts'
import type { Problem } from '../../kernel/problem.ts'
import { questionsIn } from '../../packs/forms/questions.ts'
import { draftPack, type PackDraft, type Question } from '../../packs/paper/draftPack.ts'
import { withPastedTable } from '../../packs/paper/tablesFile.ts'
import { readPack } from '../../packs/read.ts'
import { type PastedTable, pastedTables } from './pastedTables.ts'

export interface DraftedItem {
  /** Of the text, from 1. */
  readonly line: number
  readonly challenge: string
  /** Words as they are said; a value by its name, or as it is where it is the same in every departure. */
  readonly answer: string
  readonly isAsked: boolean
  /** Above it. */
  readonly cautions: readonly string[]
  /** Below it. */
  readonly notes: readonly string[]
}

export interface DraftedList {
  readonly name: string
  readonly line: number
  /** Above its items, both. */
  readonly cautions: readonly string[]
  readonly notes: readonly string[]
  readonly items: readonly DraftedItem[]
}

export interface PaperDraftView {
  /** Of the pack. */
  readonly id: string
  readonly name: string
  readonly lists: readonly DraftedList[]
  readonly questions: readonly Question[]
  /** What `check` says of the draft; none, as a rule. */
  readonly problems: readonly Problem[]
  /** By name, as they are written into a folder; undefined where the text holds nothing but tables. */
  readonly files: PackDraft['files'] | undefined
  /** Questions that are marked in the files. */
  readonly open: number
  readonly tables: readonly PastedTable[]
}

export function paperDraft(text: string): PaperDraftView {
  const tables = pastedTables(text)
  const { lists, questions, files: drafted, hasItems } = draftPack(text)
  if (!hasItems && tables.length > 0)
    return { id: '', name: '', lists: [], questions: [], problems: [], files: undefined, open: 0, tables }
  const files = withTables(drafted, tables)
  const { pack, problems } = readPack(files, '')
  const shownOf = (name: string) => {
    const { label = name, constant } = ownOf(pack?.figures.declarations ?? {}, name) ?? {}
    return constant === undefined ? `the ${label}` : String(constant)
  }
  const asked = new Set(questions.map(({ line }) => line))
  return {
    id: pack?.id ?? '',
    name: pack?.name ?? '',
    lists: lists.map(({ name, line, cautions, notes, items }) => ({
      ...{ name, line, cautions, notes },
      items: items.map((item) => ({
        line: item.line,
        challenge: item.challenge,
        answer: said(item.response, shownOf),
        isAsked: asked.has(item.line),
        cautions: item.cautions,
        notes: item.notes,
      })),
    })),
    questions,
    problems,
    files,
    open: Object.values(files).reduce((sum, file) => sum + questionsIn(file).length, 0),
    tables,
  }
}

function withTables(files: PackDraft['files'], tables: readonly PastedTable[]): PackDraft['files'] {
  const text = tables.reduce((file, { pasted }) => withPastedTable(file, pasted)?.text ?? file, '')
  return text === '' ? files : { ...files, 'tables.yaml': text }
}

/** The response without the signs of its notation: "(down) (three green)" is "down, three green". */
function said(response: string, shownOf: (name: string) => string): string {
  return response
    .replace(/<(\w+)>/g, (_, name: string) => shownOf(name))
    .replaceAll(') (', ', ')
    .replaceAll(' | ', ' or ')
    .replace(/[()[\]]/g, '')
}
