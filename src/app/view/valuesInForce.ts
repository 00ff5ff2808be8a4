/** The values in force of what was said, each with its reasons and those of what it rests on. */

import type { FigureSet, Reason } from '../../kernel/figures/model.ts'
import type { Value } from '../../kernel/kinds/kind.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Part } from '../../kernel/response/model.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { Revision } from '../run/revision.ts'
import { shownValue } from './readWords.ts'

export interface ValueInForce {
  readonly label: string
  readonly value: string
  /** The revision that it is of, by name. */
  readonly revision: string
  /** Its reasons, and those of what it rests on, each under its name. */
  readonly chain: readonly { readonly label: string; readonly why: readonly Reason[] }[]
}

interface Said {
  readonly parts: readonly Part[]
  /** Values that the answer itself was compared with, where they are not those of the run. */
  readonly expected: Readonly<Record<string, Value>>
  /** The revision that it was judged on. */
  readonly revision: number
}

/** How far down a value's reasons are told: a room reads no more. */
const MOST_LINKS = 4

/** Of the values that were said, right or wrong; what was left out, or not understood, is still to be said. */
export function valuesInForce(
  pack: Pack,
  { fromStations, values }: RunState,
  { parts, expected, revision: number }: Said,
  revisions: readonly Revision[],
): ValueInForce[] {
  const revision = revisions.find((one) => one.revision === number)
  const said = parts.filter(({ kind, state, doubtful }) => kind === 'figure' && state !== 'missing' && !doubtful)
  return said.flatMap(({ name, limits, expected: asked }): ValueInForce[] => {
    const value = asked ?? expected[name] ?? values[name]
    if (value === undefined || limits) return []
    const isGiven = fromStations[name] !== undefined
    return [
      {
        label: pack.figures.declarations[name]?.label ?? name,
        value: shownValue(pack, name, value),
        revision: isGiven
          ? 'as a station gave it'
          : `${revision?.inputs.label ?? revision?.inputs.status ?? ''} figures, revision ${revision?.accepted ?? ''}`.trim(),
        chain: revision && !isGiven ? chainOf(revision.set, name) : [],
      },
    ]
  })
}

/** The figure itself, then what its reasons use, nearest first. */
function chainOf({ figures }: FigureSet, name: string): ValueInForce['chain'] {
  const names = [name]
  for (const one of names) {
    const uses = figures[one]?.why.flatMap((reason) => reason.uses) ?? []
    for (const used of uses) if (!names.includes(used) && names.length < MOST_LINKS) names.push(used)
  }
  return names.flatMap((one) => {
    const figure = figures[one]
    return figure && figure.why.length > 0 ? [{ label: figure.label, why: figure.why }] : []
  })
}
