/** Benchmark of the run: how fast a log is folded to its state, for the demo departure's log repeated as one long run. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { revisedBy } from '../../src/app/run/revision.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { readInputs } from '../../src/packs/inputs.ts'

const EVENTS = 20_000
const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))

export async function measure(): Promise<Record<string, number>> {
  const { pack } = await readPackDir(here('checklists/marram'))
  const file = here('checklists/marram/inputs/preliminary.yaml')
  const inputs = pack && readInputs(await readFile(file, 'utf8'), file, pack).inputs
  if (!pack || !inputs) throw new Error('the demo pack cannot be read')
  const { id, version, sha256, name, texts } = pack
  const evidence = { by: 'voice', text: 'go back one' } as const
  const started = {
    type: 'runStarted',
    pack: { id, version, sha256, name, texts },
    situation: Object.fromEntries(pack.situations.map((one) => [one.name, one.initial])),
    settings: { phraseology: 'plain', coachAfter: 0 },
    startedAt: 0,
  } as const
  const happenings = [
    started,
    revisedBy(pack, inputs, undefined),
    { type: 'listCalled', list: 'loadFigures', evidence } as const,
    ...Array.from({ length: EVENTS }, (_, index) =>
      index % 2 === 0
        ? ({
            type: 'answered',
            item: 'loadFigures.zeroFuelWeight',
            evidence,
            judgement: { verdict: 'correct', parts: [] },
            expected: { zeroFuelWeight: 24360 },
            challengeRevision: 1,
            revision: 1,
          } as const)
        : ({ type: 'commanded', command: 'goBack', evidence } as const),
    ),
  ]
  const events = happenings.map(
    (body, seq): RunEvent => ({
      v: 1,
      seq,
      runId: 'bench',
      t: seq * 1_000,
      wall: '2000-01-01T00:00:00.000Z',
      ...body,
    }),
  )
  fold(pack, 'bench', events.slice(0, 2_000))
  const begin = performance.now()
  fold(pack, 'bench', events)
  return { 'run.replayEventsPerMs': events.length / (performance.now() - begin) }
}
