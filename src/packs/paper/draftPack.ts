/**
 * A checklist on paper, as text -> a pack in draft: complete, so that it can be read and flown, with every guess marked where
 * it stands and told with the line of the text that it came from.
 */

import { MOST_CHARACTERS, MOST_ENTRIES } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { answerOf } from './answer.ts'
import { idFrom, spoken } from './names.ts'
import type { Doubt, Paper, PaperItem, PaperList } from './paper.ts'
import { readPaper } from './readPaper.ts'
import { withUnitTokens } from './unitTokens.ts'
import type { Wanted } from './valueKind.ts'
import {
  type DraftFigure,
  type DraftItem,
  type DraftList,
  type DraftPhase,
  LONGEST_CAUTION,
  packTexts,
  type Question,
} from './writePack.ts'

export type { Question }

export interface PackDraft {
  /** By name: pack.yaml, figures.yaml, procedures.yaml. */
  readonly files: Readonly<Record<string, string>>
  readonly lists: readonly DraftList[]
  /** False where one item stands for all, since the text has none. */
  readonly hasItems: boolean
  /** In the order of the text; every guess that goes beyond it. */
  readonly questions: readonly Question[]
}

/** Never throws, whatever the text; a text of which nothing can be made gives a pack of one item, marked. */
export function draftPack(text: string): PackDraft {
  const paper = readPaper(text)
  for (let most = MOST_ENTRIES; ; most = Math.floor(most / 2)) {
    const draft = draftOf(paper, text, most)
    const fits = Object.values(draft.files).every((file) => file.length <= MOST_CHARACTERS)
    if (fits || most < 2) return draft
  }
}

/** Figures by what tells them apart; items on the way take their names from here. */
class Figures {
  readonly all: DraftFigure[] = []
  private readonly names = new Set<string>()

  /** `words` are what its name is made of. */
  declare(
    wanted: Wanted,
    words: string,
    line: number,
    group: string,
  ): { readonly name: string; readonly doubts: readonly string[] } {
    const same = this.all.find(
      (one) =>
        one.label === wanted.label &&
        one.constant === wanted.constant &&
        JSON.stringify([one.kind, one.accept]) === JSON.stringify([wanted.kind, wanted.accept]) &&
        one.line !== line,
    )
    if (same)
      return {
        name: same.name,
        doubts: [`the same value as in line ${same.line} is taken to be said here, <${same.name}>`],
      }
    const { label, kind, constant, accept, doubts } = wanted
    const name = idFrom(words, this.names, 'value')
    this.all.push({
      name,
      label,
      kind,
      group,
      line,
      doubts,
      ...(constant !== undefined && { constant }),
      ...(accept && { accept }),
    })
    return { name, doubts: [] }
  }
}

function draftOf(paper: Paper, text: string, most: number): PackDraft {
  const doubts = fewOf(paper.doubts, most)
  const figures = new Figures()
  const weight = weightUnit(withUnitTokens(text))
  const lists = withinBounds(paper.lists, most, doubts)
  const [ids, names] = [new Set<string>(), new Set<string>()]
  const drafted = lists.map((list) => draftList(list, { figures, weight: weight.unit, ids, names }))
  if (drafted.length === 0) {
    doubts.push({
      line: 1,
      text: 'nothing in the text is an item; one stands here so that there is a pack to begin with',
    })
    const item: DraftItem = {
      id: 'first',
      line: 1,
      challenge: 'first item',
      response: 'checked',
      states: [],
      cautions: [],
      notes: [],
      doubts: [],
    }
    drafted.push({
      id: 'checklist',
      line: 1,
      name: 'checklist',
      alsoCalled: [],
      phase: undefined,
      items: [item],
      cautions: [],
      notes: [],
      doubts: [],
    })
  }
  if (drafted.length > 1 && drafted.some(({ phase }) => !phase)) {
    doubts.push({
      line: drafted[0]?.line ?? 1,
      text: 'each list that stands under no other heading is a phase of its own here; put those of one phase together',
    })
  }
  const title = paper.head ? undefined : paper.title && spoken(paper.title.text)
  for (const doubt of title?.doubts ?? []) doubts.push({ line: paper.title?.line ?? 1, text: doubt })
  const { files, questions } = packTexts({
    title: paper.title?.text,
    head: paper.head,
    weight,
    phases: phasesOf(drafted),
    figures: figures.all,
    doubts,
  })
  return {
    files,
    lists: drafted,
    hasItems: lists.length > 0,
    questions: questions.toSorted((one, other) => one.line - other.line),
  }
}

/** Kilograms or pounds, as the text has them. */
function weightUnit(text: string): { readonly unit: 'kg' | 'lb'; readonly isNamed: boolean } {
  const has = (pattern: RegExp) => pattern.test(text)
  const [kg, lb] = [has(/(?:\b|\d)(?:kgs?|kilograms?|kilos)\b/i), has(/(?:\b|\d)(?:lbs?|pounds?)\b/i)]
  return { unit: lb && !kg ? 'lb' : 'kg', isNamed: kg !== lb }
}

/** No list has more entries than a pack may have, and all of them no more than fit. */
function withinBounds(lists: readonly PaperList[], most: number, doubts: Doubt[]): PaperList[] {
  let left = most
  const kept: PaperList[] = []
  for (const list of lists) {
    if (left <= 0) {
      doubts.push({ line: list.line, text: 'more items than one pack can hold: from here on they are left out' })
      break
    }
    const items = firstOf(list, left)
    left -= list.notes.length + items.reduce((sum, { notes }) => sum + 1 + notes.length, 0)
    kept.push({
      ...list,
      items: items.map((item) => ({ ...item, doubts: fewOf(item.doubts, most) })),
      doubts: fewOf(list.doubts, most),
    })
    const next = list.items[items.length]
    if (!next) continue
    doubts.push({ line: next.line, text: 'more items than one pack can hold: from here on they are left out' })
    break
  }
  return kept
}

/** As many items as there is room for, each with its notes. */
function firstOf({ items, notes }: PaperList, most: number): PaperItem[] {
  let left = most - notes.length
  const end = items.findIndex((item) => {
    left -= 1 + item.notes.length
    return left < 0
  })
  return end < 0 ? items : items.slice(0, Math.max(end, 1))
}

/** Of a great many doubts in one place the first, and how many more there are. */
function fewOf(doubts: readonly Doubt[], most: number): Doubt[] {
  const next = doubts[most]
  if (!next) return [...doubts]
  return [
    ...doubts.slice(0, most),
    { line: next.line, text: `and ${doubts.length - most} more places from here on are asked about or left out` },
  ]
}

interface Ground {
  readonly figures: Figures
  readonly weight: 'kg' | 'lb'
  readonly ids: Set<string>
  /** Names of lists, in small letters. */
  readonly names: Set<string>
}

const CALLED_LIST = / (check ?list|checks|check|list|procedures?|items|flow)$/i

function draftList(list: PaperList, ground: Ground): DraftList {
  const { figures, weight, ids, names } = ground
  const doubts = [...list.doubts]
  const heading = withoutAside(list.name)
  if (heading.aside !== '')
    doubts.push({
      line: list.line,
      text: `"(${heading.aside})" is not said with the name of the list; a condition, or a caution?`,
    })
  const said = spoken(heading.text === '' ? 'checklist' : heading.text.replace(/:$/, ''))
  for (const text of said.doubts) doubts.push({ line: list.line, text })
  const full = said.text.replace(/^(the) /, '')
  const bare = full.replace(CALLED_LIST, '').trim() || full
  const name = nameOf(bare, names)
  if (name !== bare)
    doubts.push({
      line: list.line,
      text: `${quoted(bare)} is the name of a list already; this one is called ${quoted(name)}`,
    })
  if (list.cautions.join(' ').length > LONGEST_CAUTION) {
    doubts.push({ line: list.line, text: 'only the beginning of its cautions is kept; they are too long to be said' })
  }
  if (list.notes.some(({ length }) => length > LONGEST_CAUTION))
    doubts.push({ line: list.line, text: 'only the beginning of a note above its items is kept; it is too long' })
  const alsoCalled = [
    ...(name.endsWith('list') ? [] : [`${name} list`]),
    ...(full !== bare && name === bare ? [full] : []),
  ].filter((one) => isNew(one, names))
  const itemIds = new Set<string>()
  const items = list.items.map((item) => draftItem(item, name, { figures, weight, itemIds }))
  return {
    id: idFrom(name, ids, 'list'),
    line: list.line,
    name,
    alsoCalled,
    phase: list.phase,
    items,
    cautions: list.cautions,
    notes: list.notes,
    doubts,
  }
}

function isNew(name: string, names: Set<string>): boolean {
  const low = name.toLowerCase()
  if (names.has(low)) return false
  names.add(low)
  return true
}

const COUNTED = ['', '', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

function nameOf(bare: string, names: Set<string>): string {
  for (let count = 1; ; count++) {
    const name = count === 1 ? bare : `${bare} ${COUNTED[count] ?? count}`
    if (isNew(name, names)) return name
  }
}

function draftItem(
  { line, challenge, answer, cautions, notes, doubts }: PaperItem,
  group: string,
  {
    figures,
    weight,
    itemIds,
  }: { readonly figures: Figures; readonly weight: 'kg' | 'lb'; readonly itemIds: Set<string> },
): DraftItem {
  const all = [...doubts]
  const { text: bare, aside } = withoutAside(challenge)
  const asked = spoken(bare)
  const name = asked.text === '' ? 'item' : asked.text
  if (asked.text === '') all.push({ line, text: 'nothing is asked here; say what' })
  if (aside !== '')
    all.push({ line, text: `"(${aside})" is not said here: a number of things, a seat, or a condition for when?` })
  if (/^(if|when|as) /i.test(bare))
    all.push({ line, text: 'this item may not apply each time; give it a situation with when' })
  for (const text of asked.doubts) all.push({ line, text })
  const declare = (wanted: Wanted) =>
    figures.declare(
      { ...wanted, label: wanted.named ? spoken(wanted.named).text : name },
      wanted.named ?? bare,
      line,
      group,
    )
  const { say, states, doubts: open } = answerOf(answer, { challenge: `${name} ${bare}`, weight, declare })
  for (const text of open) all.push({ line, text })
  if (cautions.join(' ').length > LONGEST_CAUTION)
    all.push({ line, text: 'only the beginning of its cautions is kept; they are too long to be said' })
  if (notes.some(({ length }) => length > LONGEST_CAUTION))
    all.push({ line, text: 'only the beginning of a note below it is kept; it is too long' })
  return {
    id: idFrom(asked.text, itemIds, 'item'),
    line,
    challenge: name,
    response: say,
    states,
    cautions,
    notes,
    doubts: all,
  }
}

/** What stands in brackets is taken off what is asked. */
function withoutAside(challenge: string): { readonly text: string; readonly aside: string } {
  const [open, close] = [challenge.indexOf('('), challenge.indexOf(')')]
  if (open < 0 || close < open) return { text: challenge.replace(/[()]/g, ' ').trim(), aside: '' }
  const text = `${challenge.slice(0, open)} ${challenge.slice(close + 1)}`.replace(/[()]/g, ' ')
  return { text: text.split(' ').filter(Boolean).join(' '), aside: challenge.slice(open + 1, close).trim() }
}

/** Lists under the same heading are of one phase; each other one is a phase of its own. */
function phasesOf(lists: readonly DraftList[]): DraftPhase[] {
  const phases: { id: string; name: string; lists: DraftList[]; of: DraftList['phase'] }[] = []
  const ids = new Set<string>()
  for (const list of lists) {
    const last = phases.at(-1)
    if (list.phase && last?.of === list.phase) {
      last.lists.push(list)
      continue
    }
    const name = list.phase ? spoken(list.phase.name).text || list.name : list.name
    phases.push({ id: idFrom(name, ids, 'phase'), name, lists: [list], of: list.phase })
  }
  return phases
}
