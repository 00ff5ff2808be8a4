/** From the pilot's edge to a block of read-backs, and from the block to the edge as it is known then. */

import type { Inputs } from '../../kernel/figures/model.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Dial } from '../../kernel/run/core/events.ts'
import { seeded } from '../../kernel/seeded.ts'
import { BLOCK, edgeOf, lengthTrials, nextLengths, trialsAt } from '../../kernel/training/edge.ts'
import type { RunFacts } from '../../kernel/training/facts.ts'
import type { DialTold, DrillTold } from './training.ts'

export interface DialChosen {
  readonly put: Dial
  readonly radio: 'icao' | 'faa'
  /** Elements of every transmission; undefined: around the pilot's edge. */
  readonly length?: number | undefined
}

export interface DialRun {
  readonly pack: Pack
  readonly inputs: Inputs
  readonly steppedOn: Readonly<Record<string, string>>
}

const NO_FIGURES: Inputs = { status: 'final', label: 'read-backs', values: {}, loads: {} }

/** `facts`: of all runs, in any order. */
export async function dialRunOf(
  facts: readonly RunFacts[],
  { put, radio, length }: DialChosen,
  seed: number,
): Promise<DialRun> {
  const { dialTexts } = await import('../../packs/dial/dialTexts.ts')
  const { packSha256 } = await import('../../packs/digest.ts')
  const { readPack } = await import('../../packs/read.ts')
  const chance = seeded(seed)
  const lengths = length === undefined ? nextLengths(edgeOf(trialsAt(facts, put)), chance) : Array(BLOCK).fill(length)
  const { texts, steppedOn } = dialTexts(put, lengths, radio, chance)
  const { pack, problems } = readPack(texts, await packSha256(texts))
  if (!pack) throw new Error(`the read-backs cannot be read: ${problems[0]?.message ?? ''}`)
  return { pack, inputs: NO_FIGURES, steppedOn }
}

export function dialTold(block: RunFacts, why: DrillTold['why']): Omit<DialTold, 'runId'> {
  const own = lengthTrials(block)
  return { asked: own.length, right: own.filter(({ right }) => right).length, why }
}
