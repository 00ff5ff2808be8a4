/** Tables: which cells are others now, each by the values of its axes. */

import type { Difference } from './inOrder.ts'
import { count, type Data, dataOf, fieldsChanged, isSame, listOf, shown } from './valueWords.ts'

const MOST_CELLS = 8

export function tablesChanged(before: Data, after: Data): Difference[] {
  const names = [...new Set([...Object.keys(before), ...Object.keys(after)])]
  return names.flatMap((name) => {
    const [was, now] = [before[name], after[name]]
    const title = `table “${String(dataOf(now ?? was).label ?? name)}”`
    const tell = (words: string): Difference => ({ part: 'tables', words: `${title} ${words}` })
    if (was === undefined) return [tell(`is new, with ${count(cellsOf(dataOf(now)).size, 'cell')}`)]
    if (now === undefined) return [tell('is gone')]
    return isSame(was, now) ? [] : tableChanged(dataOf(was), dataOf(now)).map((words) => tell(words))
  })
}

function tableChanged(was: Data, now: Data): string[] {
  const words = [
    ...fieldsChanged(was, now, ['cells', 'axes']).map((one) => `: ${one}`),
    ...listOf(now.axes).flatMap((axis, index) => axisChanged(dataOf(listOf(was.axes)[index]), dataOf(axis))),
  ]
  const [old, cells] = [cellsOf(was), cellsOf(now)]
  const changed = [...cells].filter(([at, value]) => old.has(at) && !isSame(old.get(at), value))
  if (changed.length > 0) {
    const few = changed.slice(0, MOST_CELLS).map(([at, value]) => `${at}: ${shown(value)} (was ${shown(old.get(at))})`)
    const rest = changed.length > MOST_CELLS ? `; and ${changed.length - MOST_CELLS} more` : ''
    words.push(`has ${count(changed.length, 'other cell')}: ${few.join('; ')}${rest}`)
  }
  return words.map((one) => one.replace(/^: /, 'has another '))
}

function axisChanged(was: Data, now: Data): string[] {
  const name = String(now.label ?? now.name)
  const [before, after] = [atOf(was), atOf(now)]
  const more = after.filter((one) => !before.includes(one))
  const less = before.filter((one) => !after.includes(one))
  return [
    ...fieldsChanged(was, now, ['at', 'choices']).map((one) => `has another axis ${name}: ${one}`),
    ...(more.length > 0 ? [`has ${name} ${more.join(', ')} besides`] : []),
    ...(less.length > 0 ? [`has no ${name} ${less.join(', ')} any more`] : []),
  ]
}

const atOf = (axis: Data) => listOf(axis.at ?? axis.choices).map(String)

/** "weight 5000, flap 15" -> the cell there. */
function cellsOf({ axes, cells }: Data): ReadonlyMap<string, unknown> {
  const found = new Map<string, unknown>()
  const visit = (inner: unknown, [axis, ...rest]: readonly Data[], at: readonly string[]): void => {
    if (!axis) found.set(at.join(', '), inner)
    else {
      const values = atOf(axis)
      for (const [index, one] of listOf(inner).entries()) {
        visit(one, rest, [...at, `${String(axis.label ?? axis.name)} ${values[index] ?? '?'}`])
      }
    }
  }
  visit(cells, listOf(axes).map(dataOf), [])
  return found
}
