/** A draft -> the texts of its files, every doubt as a comment in its place, and where each of them stands. */

import type { Accept } from '../../kernel/kinds/kind.ts'
import { onOneLine, quoted } from '../../kernel/quoted.ts'
import { idFrom } from './names.ts'
import type { Doubt, PaperHead, PaperPhase } from './paper.ts'
import type { ValueKind } from './valueKind.ts'

export interface Question {
  /** Of the text that was pasted, from 1. */
  readonly line: number
  readonly text: string
  /** Where it is marked. */
  readonly at: { readonly file: string; readonly line: number }
}

export interface DraftItem {
  readonly id: string
  /** Of the source, from 1. */
  readonly line: number
  readonly challenge: string
  /** In the response notation. */
  readonly response: string
  readonly states: readonly (readonly string[])[]
  readonly cautions: readonly string[]
  readonly notes: readonly string[]
  readonly doubts: readonly Doubt[]
}

export interface DraftList {
  readonly id: string
  readonly line: number
  readonly name: string
  readonly alsoCalled: readonly string[]
  readonly phase: PaperPhase | undefined
  readonly items: readonly DraftItem[]
  readonly cautions: readonly string[]
  readonly notes: readonly string[]
  readonly doubts: readonly Doubt[]
}

export interface DraftPhase {
  readonly id: string
  readonly name: string
  readonly lists: readonly DraftList[]
}

export interface DraftFigure {
  readonly name: string
  readonly label: string
  readonly kind: ValueKind
  /** Where it is entered: the list that asks for it first. */
  readonly group: string
  readonly line: number
  readonly doubts: readonly string[]
  readonly constant?: number | string
  readonly accept?: Accept
}

export interface DraftTexts {
  readonly title: string | undefined
  readonly head: PaperHead | undefined
  readonly weight: { readonly unit: 'kg' | 'lb'; readonly isNamed: boolean }
  readonly phases: readonly DraftPhase[]
  readonly figures: readonly DraftFigure[]
  /** Of the text as a whole. */
  readonly doubts: readonly Doubt[]
}

/** Lines of one file, and the questions that are marked in them. */
class Page {
  private readonly lines: string[] = []
  readonly questions: Question[] = []
  private readonly file: string

  constructor(file: string) {
    this.file = file
  }

  put(text: string): void {
    this.lines.push(text)
  }

  ask(indent: string, { line, text }: Doubt): void {
    this.put(`${indent}# ? line ${line}: ${onOneLine(text)}`)
    this.questions.push({ line, text, at: { file: this.file, line: this.lines.length } })
  }

  get text(): string {
    return `${this.lines.join('\n')}\n`
  }
}

/** Words that YAML, or a reader, takes for something else. */
const NOT_PLAIN = new Set(['on', 'off', 'yes', 'no', 'true', 'false', 'null', 'y', 'n'])

export function scalar(text: string): string {
  const isPlain = /^[A-Za-z][A-Za-z0-9 '-]*$/.test(text) && !NOT_PLAIN.has(text.toLowerCase()) && !text.endsWith(' ')
  return isPlain ? text : JSON.stringify(text)
}
const flow = (texts: readonly string[]) => `[${texts.map(scalar).join(', ')}]`

export function packTexts(texts: DraftTexts): {
  readonly files: Record<string, string>
  readonly questions: readonly Question[]
} {
  const pages = {
    'pack.yaml': packPage(texts),
    'figures.yaml': figuresPage(texts),
    'procedures.yaml': proceduresPage(texts),
  }
  return {
    files: Object.fromEntries(Object.entries(pages).map(([name, page]) => [name, page.text])),
    questions: Object.values(pages).flatMap(({ questions }) => questions),
  }
}

const HEAD =
  '# A draft from paper. Each "# ?" is a guess, or what the paper does not say: settle it, then take the comment out.'

function packPage({ title, head, weight }: DraftTexts): Page {
  const page = new Page('pack.yaml')
  const name = title?.slice(0, 200) ?? 'Paper checklist'
  const id = idFrom(head?.aircraft?.text ?? name, new Set(), 'paper').toLowerCase()
  const open = [title === undefined ? 'name' : '', head?.aircraft ? '' : 'aircraft', head?.operator ? '' : 'operator']
  const missing = open.filter(Boolean).join(' and ')
  page.put(HEAD)
  if (missing !== '')
    page.ask('', { line: 1, text: `the paper does not say all of what flies and for whom: fill in ${missing}` })
  page.put(`id: ${scalar(id)}`)
  if (head)
    page.ask('', { line: head.title.line, text: `${quoted(name)} is taken for the name of the pack, not for a list` })
  page.put(`name: ${scalar(name)}`)
  page.put('version: 0.1.0')
  for (const field of ['aircraft', 'operator'] as const) {
    const named = head?.[field]
    if (named) page.ask('', { line: named.line, text: `${quoted(named.text)} is taken for the ${field}` })
    page.put(`${field}: ${scalar(named?.text.slice(0, 200) ?? 'not named on the paper')}`)
  }
  page.put('caution: >-')
  page.put('  For training and simulation only. Not for use in flight or on a real aircraft.')
  page.put(
    "  On a real one the approved flight manual, the operator's procedures, local rules and a licensed instructor come first.",
  )
  if (!weight.isNamed)
    page.ask('', {
      line: 1,
      text: `the paper does not settle the unit of weights: ${weight.unit === 'kg' ? 'kg or lb' : 'lb or kg'}; arms in m or in`,
    })
  page.put(`units: {weight: ${weight.unit}, arm: ${weight.unit === 'kg' ? 'm' : 'in'}}`)
  return page
}

function figuresPage({ figures }: DraftTexts): Page {
  const page = new Page('figures.yaml')
  page.put(HEAD)
  if (figures.length === 0) page.put('figures: {}')
  else page.put('figures:')
  for (const { name, label, kind, group, constant, accept, line, doubts } of figures) {
    for (const text of doubts) page.ask('  ', { line, text: `${quoted(label)}, ${text}` })
    page.put(`  ${name}:`)
    page.put(`    label: ${scalar(label)}`)
    for (const [field, value] of Object.entries({ ...kind.spec, ...(kind.unit && { unit: kind.unit }) })) {
      page.put(`    ${field}: ${typeof value === 'string' ? scalar(value) : JSON.stringify(value)}`)
    }
    if (constant === undefined) page.put(`    entered: {group: ${scalar(group)}}`)
    else page.put(`    constant: ${JSON.stringify(constant)}`)
    if (accept)
      page.put(`    accept: ${JSON.stringify(accept).replaceAll('"', '').replaceAll(':', ': ').replaceAll(',', ', ')}`)
  }
  return page
}

function proceduresPage({ phases, doubts }: DraftTexts): Page {
  const page = new Page('procedures.yaml')
  page.put(HEAD)
  for (const doubt of doubts) page.ask('', doubt)
  page.put('phases:')
  for (const { id, name, lists } of phases) {
    page.put(`  - phase: ${id}`)
    page.put(`    name: ${scalar(name)}`)
    page.put('    activities:')
    for (const list of lists) putList(page, list)
  }
  return page
}

function putList(page: Page, { id, name, alsoCalled, items, cautions, notes, doubts }: DraftList): void {
  for (const doubt of doubts) page.ask('      ', doubt)
  page.put(`      - list: ${id}`)
  page.put(`        name: ${scalar(name)}`)
  if (alsoCalled.length > 0) page.put(`        alsoCalled: ${flow(alsoCalled)}`)
  putCaution(page, '        ', cautions)
  page.put('        entries:')
  putNotes(page, notes)
  for (const item of items) {
    for (const doubt of item.doubts) page.ask('          ', doubt)
    page.put(`          - item: ${item.id}`)
    page.put(`            challenge: ${scalar(item.challenge)}`)
    page.put(`            response: ${scalar(item.response)}`)
    if (item.states.length > 0) page.put(`            states: [${item.states.map(flow).join(', ')}]`)
    putCaution(page, '            ', item.cautions)
    putNotes(page, item.notes)
  }
}

function putNotes(page: Page, notes: readonly string[]): void {
  for (const note of notes) page.put(`          - note: ${scalar(note.slice(0, LONGEST_CAUTION))}`)
}

/** Letters of a caution or a note at most; a text of a pack may have a thousand. */
export const LONGEST_CAUTION = 900

function putCaution(page: Page, indent: string, cautions: readonly string[]): void {
  const text = cautions.map((one) => (cautions.length < 2 || /[.!?]$/.test(one) ? one : `${one}.`)).join(' ')
  if (text !== '') page.put(`${indent}caution: ${scalar(text.slice(0, LONGEST_CAUTION))}`)
}
