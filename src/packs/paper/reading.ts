/** The lines of a checklist on paper, folded into its lists with their items; what is a guess is a doubt. */

import { quoted } from '../../kernel/quoted.ts'
import { type ItemLine, markTold, readItemLine } from './itemLine.ts'
import { endsInAnswer, type KnownLine, type LineKind } from './lineKinds.ts'
import { fromWords } from './looseLines.ts'
import type { Doubt, Paper, PaperItem, PaperList, PaperPhase } from './paper.ts'

/** Lines of one remark; where they had bullets, each is a sentence. */
function joined(texts: readonly string[]): string {
  const [first = '', ...more] = texts
  if (first !== '') return texts.join(' ').trim()
  return more.map((text) => (/[.!?;,]$/.test(text) || text === more.at(-1) ? text : `${text}.`)).join(' ')
}

/** "Set (CAUTION: hot surface)": the caution is of this item. */
const WARNED = / ?\((?:caution|warning)s?\b[^\p{L}\p{N}()]*([^()]+)\)/giu
const withoutWarning = (answer: string): { readonly text: string; readonly warned: string[] } => ({
  text: answer.replace(WARNED, '').trim(),
  warned: [...answer.matchAll(WARNED)].map(([, text = '']) => text.trim()),
})

type WordsLine = Extract<LineKind, { is: 'words' }>

/** Words that nothing ends with: the line goes on. */
const DANGLING = /(?:[,&/-]| and| or| of| the| for| with| to| in| on the)$/i

const underTold = ({ text, hasAnswer }: NonNullable<KnownLine['under']>, challenge: string) =>
  hasAnswer
    ? `${quoted(challenge)} stands further in, below ${quoted(text)}: is it part of that, and asked with it?`
    : `${quoted(challenge)} stands below ${quoted(text)}, and is asked with it`

/** One text on its way, line by line. */
export class Reading {
  readonly lists: PaperList[] = []
  readonly doubts: Doubt[] = []
  title: { line: number; text: string } | undefined
  private phase: PaperPhase | undefined
  /** A heading that has no items yet. */
  private heading: { line: number; text: string; sure: boolean } | undefined
  private list: PaperList | undefined
  private item: (PaperItem & { column: number; indent: number; last: number; isListed: boolean }) | undefined
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
      case 'above':
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
        if (this.lastNote)
          this.doubt(
            this.lastNote.line,
            `the note ${quoted(this.lastNote.text)} stands between two lists; it is taken to be of the one above`,
          )
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
    for (const { line, type, text } of this.waiting)
      this.doubts.push({ line, text: `the ${type} ${quoted(text)} stands with no item and is left out` })
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
    this.lastNote = undefined
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
      notes: [],
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
    const { under } = line
    const { text, warned } = withoutWarning(answer)
    const whole = under && !under.hasAnswer ? `${under.text} ${challenge}` : challenge
    if (under && challenge !== '') doubts.push({ line: line.line, text: underTold(under, challenge) })
    const item = {
      line: half?.line ?? line.line,
      challenge: half ? `${half.text} ${whole}`.trim() : whole,
      answer: text,
      cautions: warned,
      notes: [],
      doubts,
      column,
      indent: line.indent,
      last: line.line,
      isListed: 'isListed' in line.kind && line.kind.isListed,
    }
    if (half && challenge !== '' && !DANGLING.test(half.text)) {
      doubts.push({ line: half.line, text: `${quoted(half.text)} is taken for the beginning of the line below it` })
    }
    this.item = item
    this.lastNote = undefined
    list.items.push(item)
    this.take(item)
  }

  /** Cautions, and notes above all items, that waited for this item. */
  private waiting: { readonly line: number; readonly text: string; readonly type: 'caution' | 'note' }[] = []
  private take(item: PaperItem): void {
    const above: string[] = []
    for (const { line, text, type } of this.waiting) {
      if (type === 'note' && this.list) this.list.notes.push(text)
      else {
        above.push(text)
        item.doubts.push({ line, text: `the caution ${quoted(text)} is taken to be of this item, the next one` })
      }
    }
    item.cautions.unshift(...above)
    this.waiting = []
  }

  /** Behind the last item of a list, so far. */
  private lastNote: { readonly line: number; readonly text: string } | undefined
  private closeNote(): undefined {
    if (!this.note) return undefined
    const { line, texts, type } = this.note
    const text = joined(texts)
    this.note = undefined
    if (text === '') {
      this.doubt(line, `a ${type} without words is left out`)
      return undefined
    }
    if (type === 'note' && this.item) {
      this.item.notes.push(text)
      this.lastNote = { line, text }
    } else this.waiting.push({ line, text, type })
    return undefined
  }

  private endNotes(): void {
    const list = this.lists.at(-1)
    // Above the first list they are of what comes.
    if (!list) return
    for (const { line, text, type } of this.waiting) {
      if (type === 'note') {
        const last = list.items.at(-1) ?? list
        last.notes.push(text)
        continue
      }
      list.cautions.push(text)
      list.doubts.push({ line, text: `the caution ${quoted(text)} is taken to be of the whole list` })
    }
    this.waiting = []
  }

  private newItem(line: KnownLine, kind: ItemLine): void {
    const read = readItemLine(kind, this.seats)
    if ('answer' in read) this.answerOnly(line, read.answer)
    else if ('words' in read)
      this.words(line, { is: 'words', text: read.words, isListed: kind.isListed, mark: kind.mark }, undefined)
    else {
      for (const { challenge, answer, doubts } of read.items) {
        this.add(
          line,
          challenge,
          answer,
          kind.column,
          doubts.map((text) => ({ line: line.line, text })),
        )
      }
    }
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
    // Below "CAUTION:" alone stands what it warns of, with bullets or without.
    const isOfNote = !kind.isListed || this.note?.texts[0] === ''
    if (this.note && this.note.last === line.line - 1 && isOfNote) {
      this.note.texts.push(text)
      this.note.last = line.line
      return
    }
    const { item } = this
    if (item && item.last === line.line - 1 && !kind.isListed && !this.half) {
      const isBelow = item.column >= item.indent + 8 && line.indent >= item.column - 3
      const goesOn = DANGLING.test(item.answer) || /^(and|or|&) /i.test(text)
      // Every item has a bullet or a number, and this has none.
      const isRest = item.isListed && line.indent > item.indent
      if (
        isBelow ||
        isRest ||
        (goesOn && item.answer !== '') ||
        (item.answer === '' && line.indent > item.indent + 8)
      ) {
        if (!isBelow && (isRest || line.indent <= item.indent))
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
    if (mark !== '') doubts.push({ line: line.line, text: markTold(mark) })
    this.add(line, found.challenge, found.answer, line.indent, doubts)
  }

  private closeHalf(): void {
    if (!this.half) return
    const { line, text } = this.half
    this.half = undefined
    this.doubt(line, `${quoted(text)} is left out: nothing says what it belongs to`)
  }
}
