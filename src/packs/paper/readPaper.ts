/** The lines of a checklist on paper -> its lists with their items, as they stand there; what is a guess is a doubt. */

import { quoted } from '../../kernel/quoted.ts'
import { columnsOf } from './cells.ts'
import { csvLines } from './csvPaper.ts'
import { endsInAnswer, type KnownLine, knownLines, type LineKind } from './lineKinds.ts'
import { blankOrLeader, fromWords, seatIn } from './looseLines.ts'
import { type PaperText, paperText } from './paperText.ts'

/** A guess, or what could not be told; `line` is that of the source, from 1. */
export interface Doubt {
  readonly line: number
  readonly text: string
}

export interface PaperItem {
  readonly line: number
  challenge: string
  answer: string
  readonly cautions: string[]
  readonly doubts: Doubt[]
}

export interface PaperList {
  readonly line: number
  readonly name: string
  readonly phase: PaperPhase | undefined
  readonly items: PaperItem[]
  readonly cautions: string[]
  readonly doubts: Doubt[]
}

export interface PaperPhase {
  readonly line: number
  readonly name: string
}

export interface Paper {
  readonly title: { readonly line: number; readonly text: string } | undefined
  readonly lists: readonly PaperList[]
  /** Of the text as a whole. */
  readonly doubts: readonly Doubt[]
}

type ItemLine = Extract<LineKind, { is: 'item' }>
type WordsLine = Extract<LineKind, { is: 'words' }>

/** Words that nothing ends with: the line goes on. */
const DANGLING = /(?:[,&/-]| and| or| of| the| for| with| to| in| on the)$/i

class Reading {
  readonly lists: PaperList[] = []
  readonly doubts: Doubt[] = []
  title: { line: number; text: string } | undefined
  private phase: PaperPhase | undefined
  /** A heading that has no items yet. */
  private heading: { line: number; text: string; sure: boolean } | undefined
  private list: PaperList | undefined
  private item: (PaperItem & { column: number; indent: number; last: number }) | undefined
  private half: { line: number; text: string } | undefined
  private note: { line: number; last: number; texts: string[]; type: 'caution' | 'note' } | undefined
  private held: Doubt[] = []
  /** Seats that were told already. */
  private readonly seats = new Set<string>()

  doubt(line: number, text: string): void {
    const to = this.item?.doubts ?? this.list?.doubts ?? this.held
    to.push({ line, text })
  }

  read(line: KnownLine, next: KnownLine | undefined): void {
    const { kind } = line
    switch (kind.is) {
      case 'blank':
        this.closeHalf()
        this.note = this.note && this.closeNote()
        return
      case 'rule':
        this.rule(line)
        return
      case 'heads':
        this.doubt(line.line, `${quoted(line.text)} is taken for the heads of columns and left out`)
        return
      case 'leftOut':
        this.doubt(line.line, `${quoted(line.text)} is taken for ${kind.why}, and left out`)
        return
      case 'heading':
        this.closeHalf()
        this.note = this.note && this.closeNote()
        this.endNotes()
        this.newHeading(line.line, kind.text, kind.sure)
        return
      case 'note':
        this.note = this.note && this.closeNote()
        this.note = { line: line.line, last: line.line, texts: [kind.text], type: kind.type }
        return
      case 'item':
        this.note = this.note && this.closeNote()
        this.newItem(line, kind)
        return
      case 'words':
        this.words(line, kind, next)
        return
    }
  }

  end(): Paper {
    this.closeHalf()
    if (this.note) this.closeNote()
    this.endNotes()
    if (this.heading)
      this.doubts.push({ line: this.heading.line, text: `${quoted(this.heading.text)} has no items and is left out` })
    this.doubts.push(...this.held)
    return { title: this.title, lists: this.lists, doubts: this.doubts }
  }

  private rule({ line }: KnownLine): void {
    if (this.item && this.item.last === line - 1 && this.list) {
      this.doubt(
        line,
        'a rule stands below this item: is it "the line", where the list waits? Then write a line: entry here',
      )
    }
  }

  private newHeading(line: number, text: string, sure: boolean): void {
    const same = (other: string | undefined) =>
      other?.toLowerCase() === text.toLowerCase().replace(/ ?\(?cont'?d?\.?\)?$| ?\(continued\)$/, '')
    if (this.list && !this.heading && same(this.list.name)) {
      this.doubt(line, `${quoted(text)} stands again; the items below go on in the same list`)
      return
    }
    if (same(this.title?.text) || (this.phase && same(this.phase.name))) {
      this.doubt(line, `${quoted(text)} stands again and is left out`)
      return
    }
    if (this.heading) this.promote(this.heading)
    this.heading = { line, text, sure }
    this.item = undefined
    this.list = undefined
  }

  /** A heading right before another one: the title, or the phase of the lists below. */
  private promote({ line, text }: { line: number; text: string }): void {
    if (this.lists.length === 0 && !this.title) {
      this.title = { line, text }
      return
    }
    this.phase = { line, name: text }
    this.held.push({
      line,
      text: `${quoted(text)} has no items of its own: it is taken for the phase of the lists below`,
    })
  }

  private openList(line: number): PaperList {
    if (this.list) return this.list
    const { heading } = this
    this.list = {
      line: heading?.line ?? line,
      name: heading?.text ?? '',
      phase: this.phase,
      items: [],
      cautions: [],
      doubts: this.held,
    }
    this.held = []
    if (!heading) this.list.doubts.push({ line, text: 'no heading stands above these items; name the list' })
    else if (!heading.sure)
      this.list.doubts.push({ line: heading.line, text: `${quoted(heading.text)} is taken for the name of a list` })
    this.heading = undefined
    this.lists.push(this.list)
    return this.list
  }

  private add(line: KnownLine, challenge: string, answer: string, column: number, doubts: Doubt[] = []): void {
    const list = this.openList(line.line)
    const { half } = this
    this.half = undefined
    const item = {
      line: half?.line ?? line.line,
      challenge: half ? `${half.text} ${challenge}`.trim() : challenge,
      answer,
      cautions: [],
      doubts,
      column,
      indent: line.indent,
      last: line.line,
    }
    if (half && challenge !== '' && !DANGLING.test(half.text)) {
      doubts.push({ line: half.line, text: `${quoted(half.text)} is taken for the beginning of the line below it` })
    }
    this.item = item
    list.items.push(item)
    this.take(item)
  }

  /** A caution that waited for this item. */
  private waiting: { line: number; text: string; type: 'caution' | 'note' } | undefined
  private take(item: PaperItem): void {
    if (!this.waiting) return
    const { line, text, type } = this.waiting
    this.waiting = undefined
    item.cautions.push(text)
    item.doubts.push({ line, text: `the ${type} ${quoted(text)} is taken to be of this item, the next one` })
  }

  private closeNote(): undefined {
    if (!this.note) return undefined
    const { line, texts, type } = this.note
    const text = texts.join(' ').trim()
    this.note = undefined
    if (text === '') {
      this.doubt(line, `a ${type} without words is left out`)
      return undefined
    }
    if (type === 'note' && this.item) {
      this.item.cautions.push(text)
      this.doubt(line, `the note ${quoted(text)} is taken to be of this item, the one before`)
    } else if (this.waiting) this.waiting = { ...this.waiting, text: `${this.waiting.text} ${text}` }
    else this.waiting = { line, text, type }
    return undefined
  }

  private endNotes(): void {
    if (!this.waiting) return
    const { line, text, type } = this.waiting
    this.waiting = undefined
    const list = this.lists.at(-1)
    list?.cautions.push(text)
    const to = list?.doubts ?? this.held
    to.push({ line, text: `the ${type} ${quoted(text)} is taken to be of the whole list` })
  }

  private newItem(line: KnownLine, kind: ItemLine): void {
    const doubts: Doubt[] = []
    const doubt = (text: string) => doubts.push({ line: line.line, text })
    if (kind.mark !== '') doubt(`${quoted(kind.mark)} marks this item on the paper; what it means is not in the text`)
    const cells = kind.cells
    const [first = '', ...rest] = cells
    const last = rest.at(-1) ?? ''
    if (first === '' && rest.length === 1) {
      this.answerOnly(line, last)
      return
    }
    const pairs = pairsOf(kind)
    if (pairs) {
      for (const [challenge, answer] of pairs) {
        this.add(line, challenge, answer, kind.column, [
          { line: line.line, text: 'two items stand on one line: are they of the same list, in this order?' },
        ])
      }
      return
    }
    if (kind.by === 'blank') {
      const { answer, doubt: open } = blankOrLeader(first, last)
      if (open) doubt(open)
      this.add(line, first, answer, kind.column, doubts)
      return
    }
    if (kind.by === 'capitals' && !endsInAnswer(cells)) {
      this.words(line, { is: 'words', text: cells.join(' '), isListed: true, mark: kind.mark }, undefined)
      return
    }
    if (rest.length === 1 && kind.by === 'leader') {
      const { cells: columns } = columnsOf(last)
      if (columns.length > 1) {
        this.moreCells(line, first, columns, kind, doubts)
        return
      }
    }
    if (rest.length > 1) this.moreCells(line, first, rest, kind, doubts)
    else {
      if (kind.by === 'dash' && last.includes(' - '))
        doubt(`two dashes: ${quoted(first)} is taken for what is asked, the rest for the answer`)
      this.add(line, first, last, kind.column, doubts)
    }
  }

  /** More than an answer behind what is asked: a seat, a remark, or an answer in several pieces. */
  private moreCells(line: KnownLine, first: string, rest: readonly string[], kind: ItemLine, doubts: Doubt[]): void {
    const doubt = (text: string) => doubts.push({ line: line.line, text })
    const kept: string[] = []
    const [challenge, cells] = first === '' && rest.length > 1 ? [rest[0] ?? '', rest.slice(1)] : [first, rest]
    for (const cell of cells) {
      const seat = seatIn(cell)
      if (cell === '') continue
      if (seat && kept.length > 0) {
        if (!this.seats.has(cell.toLowerCase()) || seat === 'both') doubt(seatTold(cell, seat))
        this.seats.add(cell.toLowerCase())
      } else if (/^[☐ []*\]?$/.test(cell)) continue
      else kept.push(cell)
    }
    if (kept.length > 1) doubt(`${kept.map(quoted).join(' and ')} stand apart: is all of it the answer?`)
    // A place to fill in between two leaders.
    const answer = kind.by === 'leader' && cells[0] === '' && kept.length === 1 ? `____ ${kept[0]}` : kept.join(', ')
    if (answer !== kept.join(', ')) doubt('the second row of signs is taken for a value that is written in')
    this.add(line, challenge, answer, kind.column, doubts)
  }

  private answerOnly(line: KnownLine, answer: string): void {
    if (this.half) {
      this.add(line, '', answer, line.indent)
      return
    }
    if (this.item && this.item.answer === '') {
      this.item.answer = answer
      this.item.last = line.line
      return
    }
    this.doubt(line.line, `${quoted(line.text)} is an answer without anything that is asked; it is left out`)
  }

  private words(line: KnownLine, kind: WordsLine, next: KnownLine | undefined): void {
    const { text } = kind
    if (this.note && this.note.last === line.line - 1 && !kind.isListed) {
      this.note.texts.push(text)
      this.note.last = line.line
      return
    }
    const { item } = this
    if (item && item.last === line.line - 1 && !kind.isListed && !this.half) {
      const isBelow = item.column >= item.indent + 8 && line.indent >= item.column - 3
      const goesOn = DANGLING.test(item.answer) || /^(and|or|&) /i.test(text)
      if (isBelow || (goesOn && item.answer !== '') || (item.answer === '' && line.indent > item.indent + 8)) {
        if (!isBelow && line.indent <= item.indent)
          this.doubt(line.line, `${quoted(text)} is taken for the rest of the answer above`)
        item.answer = `${item.answer} ${text}`.trim()
        item.last = line.line
        return
      }
    }
    const follows = next?.kind.is === 'item' ? next.kind : undefined
    const isSame = follows !== undefined && next?.line === line.line + 1
    const answerFollows = isSame && follows?.cells[0] === ''
    const isHalf =
      isSame &&
      !endsInAnswer(['', text]) &&
      (DANGLING.test(text) || (next !== undefined && next.indent > line.indent + 1) || answerFollows)
    // Between two items, with no answer: most likely the beginning of the next.
    const isBetween = isSame && !kind.isListed && item?.last === line.line - 1 && !endsInAnswer(['', text])
    if (isHalf || isBetween || (this.half && isSame)) {
      this.half = this.half ? { ...this.half, text: `${this.half.text} ${text}` } : { line: line.line, text }
      return
    }
    this.note = this.note && this.closeNote()
    this.loose(line, text, kind.mark, kind.isListed)
  }

  /** A line without an answer of its own: part of it may be one, or it is prose. */
  private loose(line: KnownLine, text: string, mark: string, isListed: boolean): void {
    const found = fromWords(text, isListed)
    if (!found) {
      if (!this.list && !this.heading && !this.title && this.lists.length === 0 && text.split(' ').length <= 10) {
        this.title = { line: line.line, text }
        this.held.push({ line: line.line, text: `${quoted(text)} is taken for the title` })
        return
      }
      this.doubt(line.line, `${quoted(text)} is taken for no item and left out`)
      return
    }
    const doubts = [{ line: line.line, text: found.doubt }]
    if (mark !== '')
      doubts.push({
        line: line.line,
        text: `${quoted(mark)} marks this item on the paper; what it means is not in the text`,
      })
    this.add(line, found.challenge, found.answer, line.indent, doubts)
  }

  private closeHalf(): void {
    if (!this.half) return
    const { line, text } = this.half
    this.half = undefined
    this.doubt(line, `${quoted(text)} is left out: nothing says what it belongs to`)
  }
}

const seatTold = (cell: string, seat: 'one' | 'both') =>
  seat === 'both'
    ? `${quoted(cell)}: do both seats answer? The pilot alone does here; write answers: both`
    : `${quoted(cell)} says who answers, here and below; the pilot answers everything here, or write answers: both`

/** Two challenges with their answers on one line. */
function pairsOf({ cells, by }: ItemLine): readonly (readonly [string, string])[] | undefined {
  if (by === 'leader' && cells.length === 3) {
    const { cells: middle } = columnsOf(cells[1] ?? '')
    if (middle.length === 2 && cells[0] !== '')
      return [
        [cells[0] ?? '', middle[0] ?? ''],
        [middle[1] ?? '', cells[2] ?? ''],
      ]
  }
  if ((by === 'columns' || by === 'tab') && cells.length === 4) {
    return [
      [cells[0] ?? '', cells[1] ?? ''],
      [cells[2] ?? '', cells[3] ?? ''],
    ]
  }
  return undefined
}

export function readPaper(source: string): Paper {
  const text: PaperText = paperText(source)
  const reading = new Reading()
  for (const line of text.tooLong) reading.doubts.push({ line, text: 'a line of more than 400 letters is left out' })
  if (text.unreadFrom !== undefined) {
    reading.doubts.push({
      line: text.unreadFrom,
      text: 'the text is longer than a pack may be; from here on nothing was read',
    })
  }
  const csv = csvLines(text.lines)
  const lines = csv?.lines ?? knownLines(text.lines)
  reading.doubts.push(...(csv?.doubts ?? []))
  for (const [index, line] of lines.entries()) {
    reading.read(line, lines[index + 1])
  }
  return reading.end()
}
