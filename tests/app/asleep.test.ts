/** A machine that sleeps in the middle of what is timed: at waking all goes by the clock. */

import { describe, expect, it } from 'vitest'
import { rig } from './rig.ts'

const TO_THE_START = [
  ...['load figures list', 'two four three six zero', 'four point three up', 'one two six', 'one three two'],
  ...[
    'one three nine',
    'niner zero point four',
    'edition one, seven zero on board',
    'before start list',
    'brake set',
    'signs on',
    'four eight eight zero',
    'five two four zero',
  ],
  ...['one zero zero niner', 'four two seven one', 'we are cleared to push', 'all closed slides armed', 'beacon on'],
  ...['all pumps on', 'starting the right engine'],
]

async function started() {
  const flown = await rig()
  for (const text of TO_THE_START) await flown.hear(text)
  const dues = () => flown.run.events().filter(({ type }) => type === 'watchDue')
  return { ...flown, dues }
}

describe('an engine start', () => {
  it('awake is asked about, and then stopped, at the pack’s times', async () => {
    const { clock, dues, settled } = await started()
    for (let seconds = 0; seconds < 8; seconds++) {
      clock.advance(1_000)
      await settled()
    }
    expect(dues()).toMatchObject([{ call: 'turning', stage: 'ask' }])
    clock.advance(1_000)
    await settled()
    expect(dues()).toMatchObject([
      { call: 'turning', stage: 'ask' },
      { call: 'turning', stage: 'limit' },
    ])
  })

  it('through ten minutes of sleep is stopped at waking, once, and not nine seconds later', async () => {
    const { clock, dues, voice, settled } = await started()
    clock.skip(600_000)
    clock.advance(0)
    await settled()
    clock.advance(0)
    await settled()
    expect(dues()).toMatchObject([
      { call: 'turning', stage: 'ask', t: 600_000 },
      { call: 'turning', stage: 'limit', t: 600_000 },
    ])
    const stops = () => voice.said.filter(({ text }) => text === 'No rotation. Fuel off, or call it.')
    expect(stops()).toHaveLength(1)
    clock.advance(60_000)
    await settled()
    expect(dues()).toHaveLength(2)
    expect(stops()).toHaveLength(1)
  })
})
