/** Lists of things with names of their own: phases, lists, items, steps, turns, calls, topics. */

import { count, type Data, dataOf, fieldsChanged, isSame, listOf, movedIn } from './valueWords.ts'

/** What may stand in a list, by the field that holds its name: how it is called, and what it holds in turn. */
const KINDS: Readonly<Record<string, { readonly word: string; readonly inside?: readonly string[] }>> = {
  phase: { word: 'phase', inside: ['activities'] },
  list: { word: 'list', inside: ['entries'] },
  flow: { word: 'flow', inside: ['steps'] },
  watch: { word: 'watch', inside: ['calls', 'abnormal'] },
  exchange: { word: 'exchange', inside: ['turns'] },
  briefing: { word: 'briefing', inside: ['topics'] },
  item: { word: 'item' },
  line: { word: 'line' },
  step: { word: 'step' },
  call: { word: 'call' },
  abnormal: { word: 'abnormal call' },
  turn: { word: 'turn', inside: ['elements'] },
  element: { word: 'element' },
  topic: { word: 'topic' },
}

export interface Difference {
  /** What it is in: "after start", "figures". */
  readonly part: string
  /** "item “flap” now answers with the figure “flap setting”". */
  readonly words: string
}

interface Thing {
  readonly id: string
  readonly word: string
  readonly title: string
  readonly data: Data
  readonly inside: readonly string[]
}

/** `labels`: of the figures, by name. */
export function listChanged(
  part: string,
  before: unknown,
  after: unknown,
  labels: ReadonlyMap<string, string>,
): Difference[] {
  const [old, now] = [thingsOf(before), thingsOf(after)]
  const found = (id: string, all: readonly Thing[]) => all.find((one) => one.id === id)
  const moved = movedIn(
    old.map(({ id }) => id),
    now.map(({ id }) => id),
  )
  const gone = old.filter(({ id }) => !found(id, now)).map((one) => ({ part, words: `${named(one)} is gone` }))
  const rest = now.flatMap((one, index): Difference[] => {
    const previous = now[index - 1]
    const where = previous ? `behind ${named(previous)}` : 'to the beginning'
    const was = found(one.id, old)
    if (!was) return [{ part, words: `${named(one)} is new${previous ? `, ${where}` : ''}${holds(one)}` }]
    const place = moved.has(one.id) ? [{ part, words: `${named(one)} was moved ${where}` }] : []
    return [...place, ...thingChanged(part, was, one, labels)]
  })
  return [...gone, ...rest]
}

function thingChanged(part: string, was: Thing, now: Thing, labels: ReadonlyMap<string, string>): Difference[] {
  const own = [
    ...(was.word === now.word ? [] : [`is now a ${now.word} (was a ${was.word})`]),
    ...responseChanged(was.data.response, now.data.response, labels),
    ...fieldsChanged(was.data, now.data, ['response', ...now.inside]),
  ]
  // What a list or a phase holds is told under its name.
  const inner = now.word === 'phase' || now.word === 'element' ? part : now.title
  return [
    ...own.map((words) => ({ part, words: `${named(now)}${/^(now|is) /.test(words) ? ' ' : ': '}${words}` })),
    ...now.inside.flatMap((field) => listChanged(inner, was.data[field], now.data[field], labels)),
  ]
}

function responseChanged(before: unknown, after: unknown, labels: ReadonlyMap<string, string>): string[] {
  if (isSame(before, after)) return []
  const [was, now] = [figuresIn(before), figuresIn(after)]
  const more = now.filter((name) => !was.includes(name))
  const less = was.filter((name) => !now.includes(name))
  const called = (names: readonly string[]) =>
    `the ${names.length === 1 ? 'figure' : 'figures'} ${names.map((name) => `“${labels.get(name) ?? name}”`).join(' and ')}`
  const how =
    more.length > 0
      ? ` with ${called(more)}`
      : less.length > 0
        ? `${now.length > 0 ? '' : ' in words'}, without ${called(less)}`
        : ''
  return [`now answers${how}: ${saying(after)} (was ${saying(before)})`]
}

function saying(response: unknown): string {
  if (!Array.isArray(response)) return `“${String(response ?? '')}”`
  const cases = response.map((one) => `“${String(dataOf(one).say ?? '')}”`)
  return cases.length === 1 ? String(cases[0]) : `${count(cases.length, 'case')}: ${cases.join(', or ')}`
}

function figuresIn(response: unknown): string[] {
  const texts = Array.isArray(response)
    ? response.map((one) => String(dataOf(one).say ?? ''))
    : [String(response ?? '')]
  return [...new Set(texts.flatMap((text) => [...text.matchAll(/<(\w+)>/g)].map(([, name = '']) => name)))]
}

function thingsOf(value: unknown): Thing[] {
  const seen = new Map<string, number>()
  return listOf(value).map((one, index): Thing => {
    const data = dataOf(one)
    const key = Object.keys(KINDS).find((name) => typeof data[name] === 'string')
    const kind = key === undefined ? undefined : KINDS[key]
    const name = key === undefined ? undefined : String(data[key])
    const titles = [data.challenge, data.name, data.label, data.heading, data.note, name]
    const title = String(titles.find((title) => typeof title === 'string' && title !== '') ?? `number ${index + 1}`)
    // What has no name of its own is known by what it says.
    const id = name === undefined ? `= ${JSON.stringify(one)}` : `${name}`
    const times = (seen.get(id) ?? 0) + 1
    seen.set(id, times)
    return {
      id: times > 1 ? `${id} ${times}` : id,
      word: kind?.word ?? 'entry',
      title,
      data,
      inside: kind?.inside ?? [],
    }
  })
}

const named = ({ word, title }: Thing) => `${word} “${title}”`

function holds({ data, inside }: Thing): string {
  const inner = inside.flatMap((field) => listOf(data[field]))
  if (inside.length > 0) return inner.length > 0 ? `, with ${count(inner.length, 'entry', 'entries')}` : ''
  return data.response === undefined ? '' : `: ${saying(data.response)}`
}
