/** Interlocks that wait for what can only come later, or in a circle for one another. */

import type { Problem } from '../../kernel/problem.ts'
import type { ExchangeText } from '../exchangeSchema.ts'
import type { ItemText } from '../proceduresSchema.ts'
import { repeats } from '../repeats.ts'
import type { Path } from '../source.ts'
import { type Advise, activitiesOf, advising, type Written } from './written.ts'

type Interlocks = ItemText['interlocks']

/** Something that waits, by the name under which others may wait for it. */
interface Waiting {
  readonly event: string
  readonly interlocks: Interlocks
  readonly path: Path
  /** Its place in the order of the pack; of a turn, that of the end of its phase, for a line may call it earlier. */
  readonly place: number
}

export function adviseOrder(written: Written): Problem[] {
  const problems: Problem[] = []
  const advise = advising(written.procedures.source, problems)
  const { earliest, waiting } = placesIn(written)
  for (const { event, interlocks, path, place } of waiting) {
    for (const [index, { after }] of (interlocks ?? []).entries()) {
      const at: Path = [...path, 'interlocks', index, 'after']
      const found = earliest.get(after)
      if (found === undefined || (found <= place && after !== event)) continue
      const what =
        after === event
          ? 'for itself'
          : event.startsWith(`${after}.`)
            ? 'for the list that it stands in'
            : `for ${after}, which comes later`
      advise(
        'interlock',
        at,
        `${event} waits ${what}, so it can never be done in its turn; wait for something before it`,
      )
    }
  }
  for (const { value, path } of activitiesOf(written)) {
    if ('exchange' in value) adviseCircle(value, path, advise)
  }
  return problems
}

function placesIn(written: Written) {
  const earliest = new Map<string, number>()
  const waiting: Waiting[] = []
  let count = 0
  const happens = (event: string, place: number) => {
    earliest.set(event, Math.min(place, earliest.get(event) ?? Infinity))
  }
  for (const [phase, { activities }] of written.procedures.value.phases.entries()) {
    const [begin, end] = [++count, Infinity]
    for (const [index, activity] of activities.entries()) {
      const path: Path = ['phases', phase, 'activities', index]
      const add = (event: string, interlocks: Interlocks, at: Path, place = ++count) => {
        happens(event, place)
        waiting.push({ event, interlocks, path: at, place })
      }
      if ('flow' in activity) {
        for (const [number, { step, interlocks }] of activity.steps.entries()) {
          add(`${activity.flow}.${step}`, interlocks, [...path, 'steps', number])
        }
      } else if ('watch' in activity) add(activity.watch, activity.interlocks, path)
      else if ('list' in activity) {
        for (const [number, entry] of activity.entries.entries()) {
          const at: Path = [...path, 'entries', number]
          if ('item' in entry) {
            for (const { id } of repeats(entry)) add(`${activity.list}.${id}`, entry.interlocks, at)
          } else if ('question' in entry) add(`${activity.list}.${entry.question}`, undefined, at)
          else if ('line' in entry) happens(`cleared:${entry.clearance ?? entry.line}`, begin)
        }
        happens(activity.list, ++count)
      } else if ('briefing' in activity) {
        for (const { topic } of activity.topics) happens(`${activity.briefing}.${topic}`, ++count)
        happens(activity.briefing, ++count)
      } else {
        // A line of an earlier list may call for it: from the beginning of its phase on.
        for (const [number, { turn, clears, interlocks }] of activity.turns.entries()) {
          happens(`${activity.exchange}.${turn}`, begin)
          if (clears !== undefined) happens(`cleared:${clears}`, begin)
          waiting.push({
            event: `${activity.exchange}.${turn}`,
            interlocks,
            path: [...path, 'turns', number],
            place: end,
          })
        }
      }
    }
    for (const [at, one] of waiting.entries()) if (one.place === Infinity) waiting[at] = { ...one, place: count }
  }
  return { earliest, waiting }
}

/** Turns of an exchange that wait for each other; of a circle its first turn is told. */
function adviseCircle({ exchange, turns }: ExchangeText, path: Path, advise: Advise): void {
  const names = new Map(turns.map((turn, index) => [`${exchange}.${turn.turn}`, index]))
  const ahead = turns.map(({ interlocks }) => (interlocks ?? []).flatMap(({ after }) => names.get(after) ?? []))
  const told = new Set<number>()
  for (const start of turns.keys()) {
    const circle = wayBack(start, ahead)
    if (!circle || circle.length === 1 || circle.some((turn) => told.has(turn))) continue
    for (const turn of circle) told.add(turn)
    const shown = [...circle, start].map((turn) => turns[turn]?.turn).join(', ')
    const message = `these turns wait for each other: ${shown}; none of them can ever be made`
    advise('interlock', [...path, 'turns', start, 'interlocks'], message)
  }
}

function wayBack(start: number, ahead: readonly (readonly number[])[]): readonly number[] | undefined {
  const seen = new Set<number>()
  const visit = (turn: number, way: readonly number[]): readonly number[] | undefined => {
    for (const next of ahead[turn] ?? []) {
      if (next === start) return way
      if (seen.has(next)) continue
      seen.add(next)
      const found = visit(next, [...way, next])
      if (found) return found
    }
    return undefined
  }
  return visit(start, [start])
}
