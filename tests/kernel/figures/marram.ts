/** The demo pack and its example revisions, for tests of the figures. */

import { readFileSync } from 'node:fs'
import { readPackDir } from '../../../src/cli/packDir.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import { showProblem } from '../../../src/kernel/problem.ts'
import type { Pack } from '../../../src/kernel/run/checklist.ts'
import { itemsOf, listsOf, saidFigures } from '../../../src/kernel/run/place.ts'
import { readInputs } from '../../../src/packs/inputs.ts'

export async function packAt(dir: string): Promise<Pack> {
  const { pack, problems } = await readPackDir(dir)
  if (!pack) throw new Error(problems.map(showProblem).join('\n'))
  return pack
}

export function revision(pack: Pack, name: 'preliminary' | 'final' | 'amended'): Inputs {
  const file = `checklists/${pack.id}/inputs/${name}.yaml`
  const { inputs, problems } = readInputs(readFileSync(file, 'utf8'), file, pack)
  if (!inputs) throw new Error(problems.map(showProblem).join('\n'))
  return inputs
}

/** Names of all figures that are said in some item, in any situation. */
export function readBackOf(pack: Pack): string[] {
  const situations = pack.situations.reduce<Record<string, string>[]>(
    (all, { name, options }) => all.flatMap((one) => options.map(({ value }) => ({ ...one, [name]: value }))),
    [{}],
  )
  const said = situations.flatMap((situation) =>
    listsOf(pack).flatMap((list) => itemsOf(list, situation).flatMap((item) => saidFigures(item, situation))),
  )
  return [...new Set(said)]
}
