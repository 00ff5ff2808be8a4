/** Runs of the demo pack, or of parts of it, that leave every state as it was: from each one many ways can be tried. */

import { interpret } from '../../../src/kernel/interpret/interpret.ts'
import type { Value } from '../../../src/kernel/kinds/kind.ts'
import type { Activity, Pack } from '../../../src/kernel/pack/checklist.ts'
import { emptyRun } from '../../../src/kernel/run/core/emptyRun.ts'
import type { Effect, EventBody, RunEvent, RunSettings, Slip } from '../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { step } from '../../../src/kernel/run/core/step.ts'

export interface Flown {
  readonly pack: Pack
  readonly state: RunState
  readonly effects: readonly Effect[]
}

export function happen({ pack, state }: Flown, body: EventBody): Flown {
  const seq = state.seq + 1
  const stamp = { v: 1, seq, runId: 'demo', t: seq * 1_000, wall: new Date(seq * 1_000).toISOString() } as const
  return { pack, ...step(pack, state, { ...stamp, ...body } as RunEvent) }
}

/** As the pilot says it. */
export function hear(run: Flown, text: string): Flown {
  const heard = { text, by: 'typed', listenId: run.state.listenId, beganAt: 0, endedAt: 0 } as const
  const { event, rest } = interpret(run.pack, run.state, heard)
  const next = happen(run, event)
  return rest ? hear(next, rest.text) : next
}

/** Roles and texts of the last step. */
export const words = ({ effects }: Flown) =>
  effects.flatMap((effect) => (effect.type === 'speak' ? [`${effect.role}: ${effect.text}`] : []))

export interface Beginning {
  readonly situation: Readonly<Record<string, string>>
  /** What stations say. */
  readonly said: Readonly<Record<string, Value>>
  /** Figures in force. */
  readonly values: Readonly<Record<string, Value>>
  readonly cleared?: readonly string[]
  readonly radio?: RunSettings['radio']
  readonly phraseology?: RunSettings['phraseology']
  readonly slip?: Slip
}

/** A pack with these activities alone, in this order, on final figures. */
export function begun(demo: Pack, activities: readonly Activity[], from: Beginning): Flown {
  const { situation, said, values, cleared = [], radio = 'icao', phraseology = 'plain', slip } = from
  const pack = { ...demo, phases: [{ id: 'part', name: 'Part', activities }] }
  let run: Flown = { pack, state: emptyRun('demo'), effects: [] }
  run = happen(run, {
    type: 'runStarted',
    pack: { id: demo.id, version: demo.version, sha256: 'none', name: demo.name, texts: {} },
    situation,
    settings: { phraseology, coachAfter: 0, radio },
    startedAt: 0,
    script: { values: said, ...(slip && { slip }) },
  })
  for (const clearance of cleared) {
    run = happen(run, { type: 'cleared', clearance, evidence: { by: 'file', text: '' } })
  }
  return happen(run, {
    type: 'figuresRevised',
    revision: 1,
    status: 'final',
    label: 'final',
    inputs: { status: 'final', values, loads: {} },
    values,
    changes: [],
    warnings: [],
  })
}
