/** Revisions of the figures in the debrief: what changed, and whose word it was. */

import { expect, it } from 'vitest'
import { debriefLines } from '../../../../src/cli/debriefText.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { cuesOf } from '../../../../src/kernel/run/debrief/replay.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision } from '../fixture.ts'
import { TALK, talkRun } from '../talkFixture.ts'

const run = begun()
  .happen(call('load'))
  .happen(revision(2, 'final', FINAL, PRELIMINARY))

it('tell what changed, and from what', () => {
  const debrief = debriefOf(PACK, run.events)
  expect(debrief.revisions.map(({ changed }) => changed)).toEqual([
    [],
    [{ label: 'takeoff trim', from: '5.2 up', to: '4.6 up' }],
  ])
  expect(debriefLines(debrief)).toContain('    changed: takeoff trim 5.2 up, now 4.6 up')
})

it('tell in the middle of a run only which', () => {
  const debrief = debriefOf(PACK, run.events, true)
  expect(debrief.revisions.at(-1)?.changed).toEqual([{ label: 'takeoff trim' }])
  expect(debriefLines(debrief)).toContain('    changed: takeoff trim')
})

it('tell which call of a station gave a value', () => {
  const talk = talkRun()
  talk.hear('request clearance')
  talk.hear('cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one')
  const { revisions, timeline } = debriefOf(TALK, talk.events)
  expect(revisions.map(({ givenBy }) => givenBy)).toEqual([undefined, 'departure clearance'])
  expect(timeline.filter(({ lane }) => lane === 'figures').map(({ told }) => told)).toEqual([
    expect.stringContaining('figures accepted as revision 1'),
    'Figures from departure clearance.',
  ])
  expect(cuesOf(TALK, talk.events).map(({ text }) => text)).toContain('Figures from departure clearance')
})
