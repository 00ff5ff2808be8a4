/** A small invented pack and a run on it, for the runner's tests: two lists, a line, a value, a word, both seats. */

import type { Heard } from '../../../src/kernel/hearing/heard.ts'
import { interpret } from '../../../src/kernel/interpret/interpret.ts'
import type { Item, Pack } from '../../../src/kernel/pack/checklist.ts'
import { findItem } from '../../../src/kernel/pack/place.ts'
import type { Judgement } from '../../../src/kernel/response/model.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { emptyRun } from '../../../src/kernel/run/core/emptyRun.ts'
import type {
  Effect,
  EventBody,
  Evidence,
  RunCommand,
  RunEvent,
  RunSettings,
} from '../../../src/kernel/run/core/events.ts'
import { restedOn } from '../../../src/kernel/run/core/progress.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { step } from '../../../src/kernel/run/core/step.ts'

const item = (id: string, challenge: string, response: string, more: Partial<Item> = {}): Item => ({
  type: 'item',
  id,
  challenge,
  responses: [{ response: responseFrom(response) }],
  answers: 'pilot',
  restsOn: [],
  critical: false,
  ...more,
})

const declare = (name: string, label: string, spec: Pack['figures']['declarations'][string]['spec']) => ({
  [name]: { name, label, spec, alsoCalled: [], input: true },
})

export const PACK: Pack = {
  id: 'fixture',
  version: '1',
  sha256: 'none',
  texts: {},
  name: 'Fixture',
  aircraft: 'none',
  operator: 'none',
  caution: 'For tests only.',
  papers: [],
  figures: {
    declarations: {
      ...declare('trim', 'takeoff trim', { kind: 'trim', decimals: 1 }),
      ...declare('flap', 'takeoff flap', { kind: 'integer' }),
      ...declare('code', 'transponder', { kind: 'digits', length: 4 }),
    },
    stations: [],
  } as unknown as Pack['figures'],
  situations: [
    {
      name: 'stand',
      label: 'stand',
      options: [
        { value: 'push', label: 'pushed back', say: responseFrom('push back') },
        { value: 'self', label: 'self manoeuvring', say: responseFrom('self manoeuvring') },
      ],
      initial: 'push',
    },
  ],
  phases: [
    {
      id: 'load',
      name: 'Load',
      activities: [
        {
          type: 'flow',
          id: 'loadFlow',
          name: 'Load flow',
          steps: [{ id: 'loadFlow.setTrim', text: 'Trim', sets: ['trim'] }],
        },
        {
          type: 'list',
          id: 'load',
          name: 'Load list',
          alsoCalled: [],
          needsFinal: false,
          entries: [
            item('load.trim', 'takeoff trim', '<trim> [set]'),
            item('load.flap', 'flap', '<flap>', { answers: 'both' }),
            item('load.windows', 'windows', 'closed', { states: [['open'], ['closed']] }),
          ],
        },
      ],
    },
    {
      id: 'start',
      name: 'Start',
      activities: [
        {
          type: 'list',
          id: 'start',
          name: 'Start list',
          alsoCalled: [],
          needsFinal: true,
          entries: [
            item('start.code', 'transponder', '<code>'),
            {
              type: 'line',
              id: 'start.line',
              clearance: 'push',
              label: 'push clearance',
              say: responseFrom('cleared to push'),
            },
            item('start.tug', 'tow bar', 'connected', { when: { each: { stand: ['push'] } } }),
            item('start.beacon', 'beacon', 'on', { states: [['on'], ['off']], restsOn: ['flap'] }),
          ],
        },
      ],
    },
  ],
}

export const PRELIMINARY = { trim: 5.2, flap: 14, code: '4271' }
export const FINAL = { trim: 4.6, flap: 14, code: '4271' }

export const TYPED: Evidence = { by: 'typed', text: 'words' }

/** A run that takes happenings one by one, with the effects of the last. */
export interface TestRun {
  state: RunState
  effects: readonly Effect[]
  readonly events: RunEvent[]
  happen(body: EventBody): TestRun
  /** Answers the open item (or a named one) with a verdict. */
  answer(verdict: Judgement['verdict'], more?: Partial<Judgement>, id?: string): TestRun
  command(command: RunCommand, argument?: string): TestRun
  /** As the pilot says or types it. */
  hear(text: string, more?: Partial<Heard>): TestRun
  /** Lets time pass before the next body, beside the second that each takes. */
  pass(ms: number): TestRun
  said(): string
}

export function testRun(pack: Pack = PACK): TestRun {
  let passed = 0
  const run: TestRun = {
    state: emptyRun('run'),
    effects: [],
    events: [],
    happen(body) {
      const seq = run.state.seq + 1
      const stamp = { v: 1, seq, runId: 'run', t: seq * 1_000 + passed, wall: '2000-01-01T00:00:00.000Z' } as const
      const event: RunEvent = { ...stamp, ...body }
      const next = step(pack, run.state, event)
      run.events.push(event)
      run.state = next.state
      run.effects = next.effects
      return run
    },
    answer(verdict, more = {}, id = run.state.floor.at === 'item' ? run.state.floor.item : '') {
      const { item: open } = findItem(pack, id)
      const judgement: Judgement = { verdict, parts: [], ...more }
      const { revision: current } = run.state
      return run.happen({
        type: 'answered',
        item: id,
        evidence: TYPED,
        judgement,
        expected: restedOn(open, run.state),
        challengeRevision: current,
        revision: current,
      })
    },
    pass(ms) {
      passed += ms
      return run
    },
    command(command, argument) {
      return run.happen({
        type: 'commanded',
        command,
        evidence: TYPED,
        ...(argument !== undefined && { argument }),
      })
    },
    hear(text, more = {}) {
      const heard: Heard = { text, by: 'voice', listenId: run.state.listenId, beganAt: 0, endedAt: 0, ...more }
      const { event, rest } = interpret(pack, run.state, heard)
      run.happen(event)
      return rest ? run.hear(rest.text, more) : run
    },
    said: () => run.effects.flatMap((effect) => (effect.type === 'speak' ? [effect.text] : [])).join(' '),
  }
  return run
}

type Values = Readonly<Record<string, number | string>>

export function revision(
  number: number,
  status: 'preliminary' | 'final' | 'amended',
  values: Values,
  before: Values = {},
): EventBody {
  const changes = Object.keys(values)
    .filter((name) => before[name] !== values[name])
    .map((name) => ({
      figure: name,
      label: PACK.figures.declarations[name]?.label ?? name,
      from: before[name],
      to: values[name],
      spoken: true,
    }))
  const inputs = { status, values, loads: {} }
  return { type: 'figuresRevised', revision: number, status, label: status, inputs, values, changes, warnings: [] }
}

/** Started, preliminary figures in, waiting in the first flow. */
export function begun(settings: Partial<RunSettings> = {}, pack: Pack = PACK): TestRun {
  return testRun(pack)
    .happen({
      type: 'runStarted',
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      situation: { stand: 'push' },
      settings: { phraseology: 'plain', coachAfter: 0, ...settings },
      startedAt: 0,
    })
    .happen(revision(1, 'preliminary', PRELIMINARY))
}

export function call(list: string): EventBody {
  return { type: 'listCalled', list, evidence: TYPED }
}
