/** Which chance holds which fault: drawn from one number and from what the chance is, so that the order of events changes nothing. */

import type { Value } from '../../kinds/kind.ts'
import { plausibleMistake, showValue } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { figuresFor } from '../../pack/place.ts'
import { type Seeded, seeded } from '../../seeded.ts'
import type { RunState } from '../core/state.ts'
import { type Fault, GRADES, type Grade } from './model.ts'

/** The chance of one thing in one run. */
export function chanceOf(seed: number, what: string): Seeded {
  let mixed = Math.trunc(seed) >>> 0
  for (const letter of what) mixed = Math.imul(mixed ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0
  return seeded(mixed)
}

/** How many mistakes are looked at before one of a grade is chosen. */
const TRIED = 24

/** Wrong values that might be said for a right one, the farthest first. */
export function wrongValues(pack: Pack, figure: string, right: Value): Value[] {
  const spec = pack.figures.declarations[figure]?.spec
  if (!spec) return []
  const drawn = Array.from({ length: TRIED }, (_, seed) => plausibleMistake(spec, right, seeded(seed)))
  const others = [...new Set(drawn.filter((value): value is Value => value !== undefined && value !== right))]
  return others
    .map((value) => ({ value, far: distance(pack, figure, value, right) }))
    .toSorted((one, other) => other.far - one.far)
    .map(({ value }) => value)
}

/** Numbers by their difference, anything else by the letters that differ. */
function distance(pack: Pack, figure: string, one: Value, other: Value): number {
  if (typeof one === 'number' && typeof other === 'number') return Math.abs(one - other)
  const shown = (value: Value) => {
    const found = figuresFor(pack, { [figure]: value }, [figure])[figure]
    return found ? showValue(found) : String(value)
  }
  const [a, b] = [shown(one), shown(other)]
  const longest = Math.max(a.length, b.length)
  return Array.from({ length: longest }, (_, at) => (a[at] === b[at] ? 0 : 1)).reduce<number>(
    (sum, each) => sum + each,
    0,
  )
}

/** One of that grade: obvious ones come from the far third, hard ones from the near. */
export function ofGrade(values: readonly Value[], grade: Grade, chance: Seeded): Value | undefined {
  if (values.length === 0) return undefined
  const third = values.length / GRADES.length
  const from = Math.floor(GRADES.indexOf(grade) * third)
  const to = Math.max(from + 1, Math.floor((GRADES.indexOf(grade) + 1) * third))
  return values[Math.min(values.length - 1, from + chance.below(to - from))]
}

/** A fault of an answer that says these figures; undefined where none can be made. */
export function answerFault(
  pack: Pack,
  state: RunState,
  item: string,
  figures: readonly string[],
  chance: Seeded,
): Fault | undefined {
  if (figures.length === 0) return undefined
  const figure = chance.pick(figures)
  const grade = chance.pick(GRADES)
  const right = state.values[figure]
  const kind = chance.pick(['wrongValue', 'oldEdition', 'wrongValue', 'valueless'] as const)
  if (right === undefined) return undefined
  const old = oldValue(state, figure, right)
  if (kind === 'valueless') return { kind, grade: 'obvious', about: item }
  if (kind === 'oldEdition' && old !== undefined) return { kind, grade: 'hard', about: item, figure, said: old, right }
  const said = ofGrade(wrongValues(pack, figure, right), grade, chance)
  return said === undefined ? undefined : { kind: 'wrongValue', grade, about: item, figure, said, right }
}

/** The value of the last earlier revision that had another one. */
function oldValue({ history }: RunState, figure: string, right: Value): Value | undefined {
  return history.map(({ values }) => values[figure]).findLast((value) => value !== undefined && value !== right)
}
