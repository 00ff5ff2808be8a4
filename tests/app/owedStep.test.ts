/** A flow that was gone on from is no dead end: what the ground crew waits for can still be said. */

import { expect, it } from 'vitest'
import { TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from './demoAnswers.ts'
import { rig } from './rig.ts'

it('own power that was not called in the flow is called when the ground crew waits for it', async () => {
  const flight = await rig({ talk: TALK })
  const [clearance, rest] = [TO_ALTIMETERS.indexOf('done'), TO_ALTIMETERS.indexOf('before start list')]
  const briefing = TO_ALTIMETERS.slice(clearance + 1, rest)
  const [call = '', ...list] = TO_ALTIMETERS.slice(rest)
  // The list is called in the middle of the cockpit flow; the briefing comes behind it then.
  const answers = [
    ...[...TO_CLEARANCE, ...TO_ALTIMETERS.slice(0, clearance), call, 'negative', ...list, ...TO_CREW, ...briefing],
    ...TO_AWAY.slice(0, TO_AWAY.indexOf('external power off')),
  ]
  for (const text of answers) await flight.hear(text, { by: 'typed' })
  await flight.hear('external power off', { by: 'typed' })
  expect(flight.said()).toBe('Not yet, own power on line first.')
  await flight.hear('generator on line', { by: 'typed' })
  expect(flight.state().stepsDone).toContain('cockpitFlow.ownPower')
  await flight.hear('external power off', { by: 'typed' })
  expect(flight.state().turns['crew.power']?.status).toBe('done')
})
