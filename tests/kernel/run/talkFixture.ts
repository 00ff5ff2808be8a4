/** An invented departure's talk in small, flown through the app's own hearing: clearance, ground crew, order, briefing, taxi. */

import type { Heard } from '../../../src/kernel/hearing/heard.ts'
import { interpret } from '../../../src/kernel/interpret/interpret.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import type { Element, ExchangeTurn, Wording } from '../../../src/kernel/pack/exchange.ts'
import { parseTemplate } from '../../../src/kernel/pack/template.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { emptyRun } from '../../../src/kernel/run/core/emptyRun.ts'
import type { Effect, EventBody, RunEvent, RunSettings, Script } from '../../../src/kernel/run/core/events.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { step } from '../../../src/kernel/run/core/step.ts'

const both = <T>(one: T) => ({ icao: one, faa: one })
const says = (text: string): Wording => both(parseTemplate(text))
const element = (id: string, label: string, words: string, readBack?: string, alsoCalled: string[] = []): Element => ({
  id,
  label,
  alsoCalled,
  says: says(words),
  ...(readBack !== undefined && { readBack: both(responseFrom(readBack)) }),
})
const turn = (id: string, label: string, more: Partial<ExchangeTurn>): ExchangeTurn => ({
  id,
  label,
  elements: [],
  sets: [],
  ...more,
})
const declare = (name: string, label: string, spec: Pack['figures']['declarations'][string]['spec']) => ({
  [name]: { name, label, spec, alsoCalled: [], input: true },
})
const choice = (...names: string[]) =>
  ({ kind: 'choice', options: Object.fromEntries(names.map((name) => [name, [name]])) }) as const

export const TALK: Pack = {
  id: 'talk',
  version: '1',
  sha256: 'none',
  texts: {},
  name: 'Talk',
  aircraft: 'none',
  operator: 'none',
  caution: 'For tests only.',
  papers: [],
  figures: {
    declarations: {
      ...declare('limit', 'clearance limit', choice('corrie', 'melton', 'harbour')),
      ...declare('sid', 'departure', choice('tarn two alfa', 'tarn two bravo', 'loch one alfa')),
      ...declare('level', 'first level', { kind: 'altitude', unit: 'ft' }),
      ...declare('code', 'squawk', { kind: 'digits', length: 4 }),
      ...declare('runway', 'runway', { kind: 'runway' }),
      ...declare('flap', 'takeoff flap', choice('five', 'fifteen', 'twenty')),
      ...declare('point', 'holding point', { kind: 'identifier' }),
    },
    stations: [],
  } as unknown as Pack['figures'],
  situations: [],
  phases: [
    {
      id: 'clearance',
      name: 'Clearance',
      activities: [
        {
          type: 'exchange',
          id: 'clearance',
          name: 'departure clearance',
          station: { role: 'controller', name: 'Sandmere Delivery' },
          order: 'fixed',
          turns: [
            turn('clearance.full', 'departure clearance', {
              calls: responseFrom('[delivery] request clearance'),
              elements: [
                element('limit', 'clearance limit', 'cleared to <limit>', '[cleared] [to] <limit>'),
                element('sid', 'departure', '<sid> departure', '<sid> [departure]'),
                element('level', 'level', 'climb to <level>', '[climb] [to] <level>'),
                element('code', 'squawk', 'squawk <code>', '[squawk] <code>', ['code']),
              ],
              sets: ['limit', 'sid', 'level', 'code'],
              clears: 'route',
            }),
          ],
        },
        {
          type: 'briefing',
          id: 'briefing',
          name: 'departure briefing',
          ends: responseFrom('briefing complete'),
          topics: [
            { id: 'briefing.runway', label: 'runway', say: [responseFrom('[departing] runway <runway>')] },
            { id: 'briefing.level', label: 'first level', say: [responseFrom('[first] level <level>')] },
            { id: 'briefing.reject', label: 'rejected takeoff', say: [responseFrom('rejected takeoff')] },
          ],
        },
        {
          type: 'list',
          id: 'list',
          name: 'before push',
          alsoCalled: [],
          needsFinal: false,
          entries: [
            {
              type: 'item',
              id: 'list.code',
              challenge: 'transponder',
              responses: [{ response: responseFrom('<code>') }],
              answers: 'pilot',
              restsOn: [],
              critical: false,
            },
          ],
        },
      ],
    },
    {
      id: 'ground',
      name: 'Ground',
      activities: [
        {
          type: 'exchange',
          id: 'crew',
          name: 'ground crew',
          station: { role: 'groundCrew', name: 'Ground crew' },
          order: 'free',
          turns: [
            turn('crew.power', 'external power', {
              calls: responseFrom('external power off'),
              states: [['on'], ['off']],
              opens: says('power unplugged'),
            }),
            turn('crew.beacon', 'beacon', { calls: responseFrom('beacon on'), states: [['on'], ['off']] }),
            turn('crew.brakes', 'brakes', {
              opens: says('release brakes'),
              elements: [element('brakes', 'brakes', '', 'brakes released')],
              interlocks: [{ after: 'crew.beacon', say: 'beacon first' }],
            }),
            turn('crew.push', 'push', {
              calls: responseFrom('ready to push'),
              opens: says('pushing'),
              interlocks: [{ after: 'crew.brakes', say: 'the ground crew asks for the brakes first' }],
            }),
          ],
        },
        {
          type: 'exchange',
          id: 'flap',
          name: 'flap order',
          station: { role: 'otherseat', name: 'Otherseat' },
          order: 'fixed',
          turns: [turn('flap.order', 'flap', { calls: responseFrom('flap <flap>'), opens: says('flap <flap>') })],
        },
        {
          type: 'exchange',
          id: 'taxi',
          name: 'taxi clearance',
          station: { role: 'controller', name: 'Sandmere Ground' },
          order: 'fixed',
          turns: [
            turn('taxi.route', 'taxi', {
              calls: responseFrom('request taxi'),
              elements: [
                element(
                  'point',
                  'holding point',
                  'taxi to holding point <point>',
                  '[taxi] [to] [holding point] <point>',
                ),
                element('hold', 'hold short', 'hold short runway <runway>', 'hold short [of] [runway] <runway>'),
              ],
              sets: ['point'],
            }),
          ],
        },
      ],
    },
  ],
}

export const SAID: Script = {
  values: { limit: 'corrie', sid: 'tarn two alfa', level: 5000, code: '4271', point: 'A3' },
}
export const HELD = { runway: '27L', flap: 'five' }

export interface TalkRun {
  state: RunState
  effects: readonly Effect[]
  readonly events: RunEvent[]
  /** What the partner is dealt before an event; nothing, as long as it is not set. */
  plan: (state: RunState, event: RunEvent) => readonly EventBody[]
  happen(body: EventBody): TalkRun
  /** As the pilot says it; values that a station gave come in at once, as the app does it. */
  hear(text: string, more?: Partial<Heard>): TalkRun
  /** Roles and texts of the last step. */
  said(): string[]
}

/** What the run begins with, where it is not as usual. */
export interface Begins {
  readonly settings?: Partial<RunSettings>
  readonly situation?: RunState['situation']
  readonly values?: RunState['values']
}

export function talkRun(script: Script = SAID, pack: Pack = TALK, begins: Begins = {}): TalkRun {
  const { settings, situation = {}, values: held = HELD } = begins
  const run: TalkRun = {
    state: emptyRun('talk'),
    effects: [],
    events: [],
    plan: () => [],
    happen(body) {
      for (const planned of run.plan(run.state, stamped(body))) commit(planned)
      return commit(body)
    },
    hear(text, more = {}) {
      const heard: Heard = { text, by: 'typed', listenId: run.state.listenId, beganAt: 0, endedAt: 0, ...more }
      const { event, rest } = interpret(pack, run.state, heard)
      run.happen(event)
      return rest ? run.hear(rest.text, more) : run
    },
    said: () => run.effects.flatMap((effect) => (effect.type === 'speak' ? [`${effect.role}: ${effect.text}`] : [])),
  }
  const stamped = (body: EventBody): RunEvent => {
    const seq = run.state.seq + 1
    const stamp = { v: 1, seq, runId: 'talk', t: seq * 1_000, wall: new Date(seq * 1_000).toISOString() } as const
    return { ...stamp, ...body }
  }
  function commit(body: EventBody): TalkRun {
    const event = stamped(body)
    const next = step(pack, run.state, event)
    run.events.push(event)
    run.state = next.state
    run.effects = next.effects
    const taken = next.effects.find((effect) => effect.type === 'recordFromStation')
    if (taken) {
      const before = run.effects
      const values = { ...run.state.inputs?.values, ...taken.values }
      run.happen(revision(run.state.revision + 1, values, taken.turn))
      run.effects = [...before, ...run.effects]
    }
    // What goes on by itself on the radio does so at once, as the app has it.
    const radio = run.effects.find((effect) => effect.type === 'radio')
    if (radio) {
      const before = run.effects.filter((effect) => effect !== radio)
      run.happen({ ...radio, type: 'radioed' })
      run.effects = [...before, ...run.effects]
    }
    return run
  }
  run.happen({
    type: 'runStarted',
    pack: { id: pack.id, version: '1', sha256: 'none', name: 'Talk', texts: {} },
    situation,
    settings: { phraseology: 'plain', coachAfter: 0, ...settings },
    startedAt: 0,
    script,
  })
  return run.happen(revision(1, held))
}

function revision(number: number, values: RunState['values'], takenDown?: string): EventBody {
  return {
    type: 'figuresRevised',
    revision: number,
    status: 'final',
    label: 'final',
    inputs: { status: 'final', values, loads: {} },
    values,
    changes: [],
    warnings: [],
    ...(takenDown !== undefined && { takenDown }),
  }
}
