/** The demo pack and its example revisions, for tests of the figures. */

import { readFileSync } from 'node:fs'
import { readPackDir } from '../../../src/cli/packDir.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { showProblem } from '../../../src/kernel/problemLine.ts'
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
