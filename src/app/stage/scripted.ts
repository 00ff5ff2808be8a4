/** A demonstration that came with a pack, flown: its lines become the log of a run, which the stage plays. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { isError, type Problem } from '../../kernel/problem.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { readDemonstration } from '../../packs/demonstration.ts'
import { readInputs } from '../../packs/inputs.ts'
import { rehearseFile } from '../rehearsal/rehearsal.ts'
import type { Prepared, Stop } from './prepared.ts'

/**
 * `name`: of its file; `sheets`: those of the pack, by name. Resolves to what is wrong where it does not fit the pack.
 */
export async function scripted(
  pack: Pack,
  name: string,
  content: string,
  sheets: Readonly<Record<string, string>>,
): Promise<Prepared | { readonly problems: readonly Problem[] }> {
  const file = `${name}.yaml`
  const read = readDemonstration(content, file)
  if (!read.demonstration) return { problems: read.problems.filter(isError) }
  const { title, inputs: sheet, begin, voices, answers } = read.demonstration
  const { inputs, problems } = readInputs(sheets[sheet] ?? '', `inputs/${sheet}.yaml`, pack)
  if (!inputs) return { problems: problems.filter(isError) }
  const events: RunEvent[] = []
  const stops: Stop[] = []
  const end = await rehearseFile({
    ...{ pack, inputs, file, answers },
    by: 'voice',
    ...(begin !== undefined && { beginAt: begin }),
    ...(voices !== undefined && { voices }),
    log: { append: async (event) => void events.push(event) },
    readText: async (one) => sheets[one],
    stopped: (words) => void stops.push({ seq: events.length - 1, words }),
  })
  // A demonstration may end anywhere.
  if (end.isFlown) return { title, pack, events, stops }
  return { problems: end.problems.map((message) => ({ code: 'demonstration.line', severity: 'error', message })) }
}
