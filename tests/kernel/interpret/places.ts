/** Where something may be said: a pack and the state of a run. */

import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun, TYPED } from '../run/fixture.ts'
import { abnormal, beforeEngine, began, called, inFlow, STARTING } from '../run/startFixture.ts'
import { SAID, TALK, talkRun } from '../run/talkFixture.ts'

export type Place = readonly [Pack, { readonly state: RunState }]

const trim = PACK.figures.declarations.trim
const CHECKED: Pack = {
  ...PACK,
  figures: {
    ...PACK.figures,
    declarations: {
      ...PACK.figures.declarations,
      ...(trim && { trim: { ...trim, stated: { sources: ['loadSheet', 'takeoffData'], tolerance: 0 } } }),
    },
  } as Pack['figures'],
}

const small = (bring: (run: TestRun) => TestRun): Place => [CHECKED, bring(begun())]
export const atTrim = small((run) => run.happen(call('load')))
export const atFlap = small((run) => run.happen(call('load')).answer('correct'))
const loaded = (run: TestRun) => run.happen(call('load')).answer('correct').answer('correct').answer('correct')
/** Its ground crew waits for a step of a flow that was gone on from. */
const OWED: Pack = {
  ...TALK,
  phases: [
    ...TALK.phases.map((phase) => ({
      ...phase,
      activities: phase.activities.map((activity) =>
        activity.type === 'exchange'
          ? {
              ...activity,
              turns: activity.turns.map((turn) => ({
                ...turn,
                interlocks: [...(turn.interlocks ?? []), { after: 'gone.power', say: 'power first' }],
              })),
            }
          : activity,
      ),
    })),
    {
      id: 'gone',
      name: 'Gone',
      activities: [
        {
          type: 'flow',
          id: 'gone',
          name: 'Gone flow',
          steps: [{ id: 'gone.power', text: 'Power', say: responseFrom('power on line'), sets: [] }],
        },
      ],
    },
  ],
}

const talking = (...texts: string[]): Place => {
  const run = talkRun()
  for (const text of texts) run.hear(text)
  return [TALK, run]
}
export const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const TO_THE_ORDER = [
  ...['request clearance', WHOLE, 'runway two seven left', 'level five thousand', 'rejected takeoff'],
  ...['briefing complete', 'before push', 'four two seven one', 'external power off', 'beacon on', 'brakes released'],
  'ready to push',
]

export const PLACES = {
  'in a flow': small((run) => run),
  'in a flow with words for its steps': [STARTING, inFlow()],
  'in a flow that is read out': [STARTING, inFlow().happen({ type: 'flowAsked', flow: 'loadFlow', evidence: TYPED })],
  'at the first item': atTrim,
  'at the item after it': atFlap,
  'at an item that was missed': small((run) =>
    run
      .happen(call('load'))
      .answer('correct')
      .answer('negative', { parts: [{ name: 'flap', kind: 'figure', state: 'wrong' }] }),
  ),
  'at an item that was not understood': small((run) => run.happen(call('load')).answer('sayAgain')),
  'where figures have just changed': small((run) =>
    run.happen(call('load')).happen(revision(2, 'final', FINAL, PRELIMINARY)),
  ),
  'at an item whose figure is missing': small((run) =>
    run.happen(revision(2, 'final', { ...FINAL, trim: undefined } as never, PRELIMINARY)).happen(call('load')),
  ),
  'at the line': small((run) =>
    loaded(run).happen(call('start')).command('affirm').command('affirm').answer('correct'),
  ),
  'standing by': small((run) => run.happen(call('load')).command('standBy')),
  'at a yes-or-no question': small((run) => run.happen(call('start'))),
  'asked for the reason of a pass': small((run) => run.happen(call('load')).command('pass')),
  'asked to read a value': small((run) =>
    run.happen({ type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet', evidence: TYPED }),
  ),
  'asked for their own value': small((run) => ({
    ...run,
    state: { ...run.state, question: { about: 'ownValue', figure: 'trim' } },
  })),
  'in a flow, with a start to come': [STARTING, inFlow()],
  'at an item, with a start to come': [STARTING, inFlow().happen(call('load'))],
  'before the engine start': [STARTING, beforeEngine()],
  'in the engine start': [STARTING, beforeEngine().happen(began(3_000))],
  'in the engine start, a value asked for': [
    STARTING,
    beforeEngine()
      .happen(began(3_000))
      .happen(called('rotation', 3_500))
      .happen(called('light', 4_000))
      .happen(called('stable', 5_000)),
  ],
  'in the engine start, a call questioned': [
    STARTING,
    beforeEngine().happen(began(3_000)).happen(called('light', 4_000)),
  ],
  'after a start that was stopped': [STARTING, beforeEngine().happen(began(3_000)).happen(abnormal(4_000))],
  'before a clearance': talking(),
  'after a clearance was said': talking('request clearance'),
  'where the controller says another value': [
    TALK,
    (() => {
      const run = talkRun({ ...SAID, slip: { turn: 'clearance.full', figure: 'code', seed: 3, kind: 'saysAnother' } })
      return run.hear('request clearance').hear(WHOLE)
    })(),
  ],
  'after a wrong read-back was called correct': [
    TALK,
    (() => {
      const run = talkRun({ ...SAID, slip: { turn: 'clearance.full', figure: 'code', seed: 3, kind: 'acceptsWrong' } })
      return run.hear('request clearance').hear(WHOLE.replace('seven one', 'seven two'))
    })(),
  ],
  'in a briefing': talking('request clearance', WHOLE),
  'in a briefing under way': talking('request clearance', WHOLE, 'runway two seven left'),
  'with the ground crew': talking(...TO_THE_ORDER.slice(0, 8)),
  'with a ground crew that waits for a step': [OWED, talking(...TO_THE_ORDER.slice(0, 8))[1]],
  'after a stop with people around': talking(...TO_THE_ORDER.slice(0, 8), 'stop'),
  'standing by with a read-back owed': talking('request clearance', 'stand by'),
  'where the pilot challenges': [CHECKED, begun({ roles: 'pilotChallenges' }).happen(call('load'))],
  'where Otherseat has answered': [
    CHECKED,
    begun({ roles: 'pilotChallenges' }).happen(call('load')).hear('takeoff trim'),
  ],
  'after the other seat has answered': [
    CHECKED,
    begun({ partner: { seed: 1, rate: 0 } })
      .happen(call('load'))
      .answer('correct')
      .answer('correct', { parts: [{ name: 'flap', kind: 'figure', state: 'ok' }] }),
  ],
  'interrupted on purpose': [
    CHECKED,
    begun({ breaks: { seed: 1, rate: 0, cues: 'mixed' } })
      .happen({ type: 'breakPlanned', item: 'load.trim', by: 'cabin', cue: false })
      .happen(call('load')),
  ],
  'at an order that differs': talking(...TO_THE_ORDER, 'flap fifteen'),
} as const satisfies Record<string, Place>
