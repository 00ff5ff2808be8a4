import { describe, expect, it } from 'vitest'
import { cuesOf, LONGEST_WAIT_MS } from '../../../../src/kernel/run/debrief/replay.ts'
import { begun, call, PACK } from '../fixture.ts'
import { SAID, TALK, talkRun } from '../talkFixture.ts'

const words = (cues: ReturnType<typeof cuesOf>) => cues.map(({ by, text }) => `${by}: ${text}`)

describe('a run played back from its log', () => {
  it('has what was said by whom, in order', () => {
    const run = begun().happen(call('load')).hear('five point two up')
    expect(words(cuesOf(PACK, run.events))).toEqual([
      'note: Preliminary figures accepted as revision 1',
      'otherseat: Load flow.',
      'pilot: words',
      'otherseat: Load list. Takeoff trim?',
      'pilot: five point two up',
      'otherseat: Flap?',
    ])
  })

  it('has stations in their own voices', () => {
    const run = talkRun(SAID)
    run.hear('request clearance')
    const cues = cuesOf(TALK, run.events)
    expect(cues.at(-1)?.by).toBe('controller')
    expect(cues.at(-1)?.text).toContain('squawk four two seven one')
  })

  it('leaves out what was meant for nobody, and says that a key was pressed', () => {
    const run = begun().happen(call('load')).hear('look at that aircraft beside the hangar')
    run.happen({ type: 'commanded', command: 'standBy', evidence: { by: 'key', text: '' } })
    expect(words(cuesOf(PACK, run.events)).slice(-2)).toEqual(['note: A key was pressed', 'otherseat: Standing by.'])
    expect(words(cuesOf(PACK, run.events)).join()).not.toContain('hangar')
  })

  it('cuts long waits short, and keeps the others', () => {
    const run = begun().happen(call('load')).pass(60_000).answer('correct')
    const waits = cuesOf(PACK, run.events).map(({ waitMs }) => waitMs)
    expect(waits).toEqual([0, 1_000, 0, LONGEST_WAIT_MS, 0, 0])
  })
})
