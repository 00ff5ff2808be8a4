/** The one door of a run: what comes through it is numbered, dated and done one after another. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createDispatch } from '../../src/app/run/dispatch.ts'
import { createRecord } from '../../src/app/run/record.ts'
import { replayed } from '../../src/app/run/storedRun.ts'
import type { Effect, RunEvent } from '../../src/kernel/run/core/events.ts'
import { createFakeLog } from '../fakes/log.ts'
import { rig } from './rig.ts'

const flown = await rig()
await flown.hear('load figures list')
const EVENTS = [...flown.log.events]
const [BEGAN] = EVENTS

/** Goes on with that run a minute after it began. */
async function door(perform: (effects: readonly Effect[]) => Promise<void> = async () => {}) {
  const soFar = replayed(flown.pack, EVENTS)
  const log = createFakeLog()
  for (const event of EVENTS) await log.append(event)
  /** What has come through it. */
  const happened = () => log.events.slice(EVENTS.length)
  const clock = createVirtualClock(Date.parse(BEGAN?.wall ?? '') + 60_000)
  const steps: RunEvent[] = []
  const dispatch = createDispatch({
    ...{ pack: flown.pack, clock, state: soFar.state, perform },
    record: createRecord(log, soFar.events, () => {}),
    changed: ({ event }) => void steps.push(event),
  })
  const hear = (text: string, more: object = {}) => {
    const at = clock.now()
    const { listenId } = dispatch.state()
    return dispatch.hear({ ...{ listenId, text, by: 'typed', beganAt: at, endedAt: at }, ...more })
  }
  return { ...dispatch, hear, happened, clock, steps }
}

describe('what happens', () => {
  it('is numbered and dated from the beginning of the run, after a reload as before it', async () => {
    const { happen, happened, clock } = await door()
    await happen({ type: 'resumed' })
    clock.advance(1_500)
    await happen({ type: 'earBack' })
    const { seq = 0 } = EVENTS.at(-1) ?? {}
    expect(happened()).toMatchObject([
      { v: 1, seq: seq + 1, runId: 'run', t: 60_000, type: 'resumed' },
      { v: 1, seq: seq + 2, runId: 'run', t: 61_500, type: 'earBack' },
    ])
    expect(happened().map(({ wall }) => Date.parse(wall))).toEqual([clock.now() - 1_500, clock.now()])
  })

  it('in a new run is dated from now', () => {
    expect(BEGAN).toMatchObject({ seq: 0, t: 0 })
  })

  it('may be several things, none, or what follows from the state at its turn', async () => {
    const { happen, state, happened } = await door()
    const seen: number[] = []
    const all = [
      happen(() => [{ type: 'resumed' }, { type: 'earBack' }]),
      happen((run) => {
        seen.push(run.seq)
        return undefined
      }),
    ]
    await Promise.all(all)
    expect(happened().map(({ type }) => type)).toEqual(['resumed', 'earBack'])
    expect(seen).toEqual([state().seq])
  })

  it('is shown once it is stored, and is then performed', async () => {
    const performed: (readonly Effect[])[] = []
    const { happen, settled, steps, happened } = await door(async (effects) => void performed.push(effects))
    await happen({ type: 'resumed' })
    await settled()
    expect(steps).toEqual(happened())
    expect(performed.flat()).toContainEqual(expect.objectContaining({ type: 'speak' }))
  })
})

describe('what was said in one breath', () => {
  it('is judged in its parts, each at the place where the one before led', async () => {
    const { hear, happened, state } = await door()
    await hear('two four three six zero')
    await hear('correction two four three six zero')
    expect(happened().map(({ type }) => type)).toEqual(['answered', 'commanded', 'answered'])
    expect(happened().at(-1)).toMatchObject({ item: 'loadFigures.zeroFuelWeight', judgement: { verdict: 'correct' } })
    expect(state().floor).toMatchObject({ item: 'loadFigures.trim' })
  })
})

describe('settled', () => {
  it('is a run when all that waits is done, what was asked meanwhile as well', async () => {
    const { happen, settled, happened } = await door()
    void happen({ type: 'resumed' }).then(() => happen({ type: 'earBack' }))
    await settled()
    expect(happened().map(({ type }) => type)).toEqual(['resumed', 'earBack'])
  })

  it('is a run only when what was asked for has been performed', async () => {
    let finish = () => {}
    const { happen, settled } = await door(
      () =>
        new Promise((done) => {
          finish = done
        }),
    )
    await happen({ type: 'resumed' })
    let isSettled = false
    const waiting = settled().then(() => {
      isSettled = true
    })
    await happen(() => undefined)
    expect(isSettled).toBe(false)
    finish()
    await waiting
    expect(isSettled).toBe(true)
  })
})

describe('a bug', () => {
  it('that throws no error of its own is told in its words', async () => {
    const { happen, happened } = await door()
    await happen(() => {
      throw 'out of cheese'
    })
    expect(happened()).toMatchObject([{ type: 'stopped', message: 'out of cheese' }])
    expect(happened()[0]).not.toHaveProperty('evidence')
  })

  it('leaves nothing behind it of several things: what came first holds, the rest does not happen', async () => {
    const { happen, happened } = await door()
    const evidence = { by: 'key', text: '' } as const
    await happen(() => [{ type: 'resumed' }, { type: 'listCalled', list: 'nope', evidence }, { type: 'earBack' }])
    expect(happened().map(({ type }) => type)).toEqual(['resumed', 'stopped'])
  })

  it('in what is performed stops the run once, and what waits its turn does not happen', async () => {
    const { happen, settled, happened, state } = await door(async () => {
      throw new Error('the voice broke')
    })
    await happen({ type: 'resumed' })
    await settled()
    await happen({ type: 'earBack' })
    await settled()
    expect(happened().map(({ type }) => type)).toEqual(['resumed', 'stopped'])
    expect(state()).toMatchObject({ status: 'stopped', stoppedBecause: 'the voice broke' })
  })
})
