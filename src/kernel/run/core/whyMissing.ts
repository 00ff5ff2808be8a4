/** Why a figure has no value: nobody entered what it rests on, or what was entered leads nowhere, as beyond a table. */

import { compute } from '../../figures/compute.ts'
import type { FigureDeclaration } from '../../figures/pack.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { RunState } from './state.ts'

/** The figure that could not be computed though all that it rests on has values; undefined where something lacks. */
export function uncomputed(pack: Pack, { inputs }: RunState, name: string): FigureDeclaration | undefined {
  if (!inputs) return undefined
  const { figures } = compute(pack.figures, inputs)
  const seen = new Set<string>()
  const rootOf = (one: string): FigureDeclaration | undefined => {
    const declared = ownOf(pack.figures.declarations, one)
    if (!declared?.derived || seen.has(one)) return undefined
    seen.add(one)
    const lacking = declared.derived.uses.filter((used) => ownOf(figures, used)?.value === undefined)
    if (lacking.length === 0) return declared
    const roots = lacking.map(rootOf)
    return roots.every((root) => root !== undefined) ? roots[0] : undefined
  }
  return rootOf(name)
}
