/**
 * One account of the load. Where a weight was settled on what somebody else states, the stations' moment is not its moment:
 * no centre of gravity comes of both. What that source states of the balance counts in its place; where it states nothing,
 * there is no value.
 */

import type { Problem } from '../problem.ts'
import type { ComputedFigure, Mixed } from './model.ts'
import type { FigureModel } from './pack.ts'
import { COMPUTED, sourceWords } from './sources.ts'

/** Whose word on the load a figure rests on, `computed` for the stations' -> the figure that was settled on it. */
export type Accounts = ReadonlyMap<string, string>

export const NO_ACCOUNT: Accounts = new Map()

/** The loads as they are entered here. */
export const STATIONS: Accounts = new Map([[COMPUTED, '']])

/** Of a figure that rests on these. */
export function together(all: readonly Accounts[]): Accounts {
  return new Map(all.flatMap((accounts) => [...accounts]))
}

/** How the accounts do not go together; undefined where there is one at most. */
export function mixedOf(accounts: Accounts): Mixed | undefined {
  const [settled, another] = [...accounts].filter(([source]) => source !== COMPUTED)
  if (accounts.size < 2 || !settled) return undefined
  return { source: settled[0], settled: settled[1], ...(another && { another: another[0] }) }
}

/** "zero fuel weight is settled on the load sheet, the moment is the stations': no centre of gravity comes of both". */
export function mixedWords({ source, settled, another }: Mixed): string {
  const other = another ? `the rest on the ${sourceWords(another)}` : 'the moment is that of the stations'
  return `${settled} is settled on the ${sourceWords(source)}, ${other}: no centre of gravity comes of both`
}

/** What is left without a value by it, told once for each choice that led there. */
export function mixedProblems(model: FigureModel, done: Readonly<Record<string, ComputedFigure>>): readonly Problem[] {
  const without = Object.values(done).filter(({ mixed, value }) => mixed && value === undefined)
  const isUsed = ({ name }: ComputedFigure, by: (figure: ComputedFigure) => boolean) =>
    Object.values(model.declarations).some((user) => {
      const figure = done[user.name]
      return user.derived?.uses.includes(name) && figure?.mixed !== undefined && by(figure)
    })
  const roots = without.filter(
    (figure) =>
      !model.declarations[figure.name]?.derived?.uses.some(
        (used) => done[used]?.mixed && done[used]?.value === undefined,
      ) && !isUsed(figure, ({ value }) => value !== undefined),
  )
  const told = new Map<string, string[]>()
  for (const { mixed, label } of roots) {
    const words = mixed ? mixedWords(mixed) : ''
    told.set(words, [...(told.get(words) ?? []), label])
  }
  return [...told].map(([words, labels]) => ({
    code: 'source.mixed',
    message: `${labels.join(', ')} not worked out: ${words}. Put the loads right, or settle on the computed value`,
    severity: 'error' as const,
  }))
}
