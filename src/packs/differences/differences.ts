/**
 * Two versions of a pack side by side: what the second one says otherwise than the first, in an author's terms. Both are
 * taken as they are written, with mistakes in them or not; comments and the order of names are no difference.
 */

import { isError } from '../../kernel/problem.ts'
import { isSheet, type PackTexts } from '../files/parts.ts'
import { parseSource } from '../source.ts'
import { type Difference, listChanged } from './inOrder.ts'
import { tablesChanged } from './tables.ts'
import { type Data, dataOf, fieldsChanged, isSame, shown } from './valueWords.ts'

export type { Difference } from './inOrder.ts'

const FILES = ['pack.yaml', 'figures.yaml', 'tables.yaml', 'procedures.yaml', 'papers.yaml', 'grading.yaml']

/** In the order of the files, and in them as they stand. */
export function differencesOf(before: PackTexts, after: PackTexts): Difference[] {
  const sheets = [...new Set([...Object.keys(before), ...Object.keys(after)])].filter(isSheet).toSorted()
  const labels = new Map([...labelsIn(before), ...labelsIn(after)])
  return [...FILES, ...sheets].flatMap((file): Difference[] => {
    const [old, now] = [before[file], after[file]]
    if (old === now) return []
    const [was, is] = [dataIn(before, file), dataIn(after, file)]
    const unread = [was, is].flatMap((one, index) => (one ? [] : [index === 0 ? 'the first' : 'the second']))
    if (unread.length > 0) {
      const which = unread.length === 2 ? 'either' : unread[0]
      return [{ part: file, words: `cannot be compared: it cannot be read in ${which}` }]
    }
    return was && is ? fileChanged(file, was, is, labels) : []
  })
}

function fileChanged(file: string, was: Data, now: Data, labels: ReadonlyMap<string, string>): Difference[] {
  const tell = (part: string) => (words: string) => ({ part, words })
  if (file === 'pack.yaml') {
    return [
      ...fieldsChanged(was, now, ['situations']).map(tell('pack')),
      ...namedChanged('pack', 'situation', was.situations, now.situations),
    ]
  }
  if (file === 'tables.yaml') return tablesChanged(dataOf(was.tables), dataOf(now.tables))
  if (file === 'papers.yaml') return namedChanged('papers', 'paper', was.papers, now.papers)
  if (file === 'grading.yaml') {
    return [
      ...namedChanged('grading', 'competency', was.competencies, now.competencies),
      ...fieldsChanged(was, now, ['competencies']).map(tell('grading')),
    ]
  }
  if (file === 'procedures.yaml') {
    return [
      ...fieldsChanged(was, now, ['phases']).map(tell('procedures')),
      ...listChanged('procedures', was.phases, now.phases, labels),
    ]
  }
  if (file === 'figures.yaml') {
    const named = ['figures', 'stations', 'envelopes']
    return [
      ...namedChanged('figures', 'station', was.stations, now.stations),
      ...namedChanged('figures', 'envelope', was.envelopes, now.envelopes),
      ...namedChanged('figures', 'figure', was.figures, now.figures),
      ...fieldsChanged(was, now, named).map(tell('figures')),
    ]
  }
  return fieldsChanged(was, now).map(tell(file))
}

/** Where a figure's value comes from: another origin is told as such. */
const ORIGINS: Readonly<Record<string, string>> = {
  entered: 'entered',
  given: 'given by a station',
  constant: 'a constant',
  derived: 'computed',
  read: 'read off a gauge',
}

function namedChanged(part: string, word: string, before: unknown, after: unknown): Difference[] {
  const [was, now] = [dataOf(before), dataOf(after)]
  const names = [...new Set([...Object.keys(was), ...Object.keys(now)])]
  return names.flatMap((name): Difference[] => {
    const [one, other] = [was[name], now[name]]
    const { label, title } = dataOf(other ?? one)
    const called = `${word} “${String(label ?? title ?? name)}”`
    if (one === undefined) return [{ part, words: `${called} is new: ${shown(other)}` }]
    if (other === undefined) return [{ part, words: `${called} is gone` }]
    if (isSame(one, other)) return []
    const [from, to] = [originOf(dataOf(one)), originOf(dataOf(other))]
    const isMoved = from !== undefined && to !== undefined && from !== to
    const told = isMoved ? [`is now ${ORIGINS[to]}: ${shown(dataOf(other)[to])} (was ${ORIGINS[from]})`] : []
    const rest = fieldsChanged(dataOf(one), dataOf(other), isMoved ? [from, to] : [])
    return [
      ...told.map((words) => ({ part, words: `${called} ${words}` })),
      ...rest.map((words) => ({ part, words: `${called}: ${words}` })),
    ]
  })
}

function originOf(figure: Data): string | undefined {
  return Object.keys(ORIGINS).find((origin) => figure[origin] !== undefined)
}

function labelsIn(files: PackTexts): [string, string][] {
  const figures = dataOf(dataIn(files, 'figures.yaml')?.figures)
  return Object.entries(figures).map(([name, figure]) => [name, String(dataOf(figure).label ?? name)])
}

/** Empty where the pack has no such file; undefined where it cannot be read. */
function dataIn(files: PackTexts, file: string): Data | undefined {
  const text = files[file]
  if (text === undefined) return {}
  const { value, problems } = parseSource(file, text)
  return problems.some(isError) ? undefined : dataOf(value)
}
