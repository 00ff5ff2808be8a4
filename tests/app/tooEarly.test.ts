/** What was called done before its time, in the debrief: refused aloud, so never "correct" afterwards. */

import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../src/cli/debriefText.ts'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import { step } from '../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { tooEarlyIn } from '../../src/kernel/run/debrief/tooEarly.ts'
import { LEFT, TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW, TO_FLAP } from './demoAnswers.ts'
import { demoPack, rig } from './rig.ts'

const ALL = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]
const upTo = (answer: string) => ALL.slice(0, ALL.lastIndexOf(answer) + 1)

/** The debrief of a run that came so far, then called this done, then did it all in order. */
async function debriefed(answers: readonly string[], ...early: string[]) {
  const flight = await rig({ talk: TALK })
  for (const answer of [...answers, ...early]) {
    if (answer === LEFT[0]) await flight.pass(13_000)
    await flight.hear(answer, { by: 'typed' })
  }
  const debrief = debriefOf(await demoPack(), flight.log.events)
  const tries = [...debrief.exchanges.flatMap(({ turns }) => turns), ...debrief.lists.flatMap(({ items }) => items)]
    .flatMap(({ tries }) => tries)
    .filter(({ tooEarly }) => tooEarly !== undefined)
  return { debrief, tries, lines: debriefLines(debrief) }
}

const SIGNAL = [...ALL, ...LEFT, 'brakes set']

describe('called done too early', () => {
  it.each([
    ['brakes released', upTo('beacon on'), 'brake release', /^the ground crew asks first$/],
    ['disconnect the cable', upTo('remove the chocks'), 'external power cable', /^power off before the cable$/],
    ['cleared to push facing east', upTo('remove the chocks'), 'push', /^external power cable before movement$/],
    ['signal in sight', SIGNAL, 'hand signal', /^ground crew off line first$/],
  ])('"%s" is told with the caution that it broke', async (text, before, what, caution) => {
    const { debrief, tries, lines } = await debriefed(before, text)
    expect(debrief.tooEarly).toEqual([
      { t: expect.any(Number), text, what, caution: expect.stringMatching(caution), of: 'call' },
    ])
    expect(tries).toMatchObject([{ text, tooEarly: expect.stringMatching(caution) }])
    expect(lines.filter((line) => line.includes('too early'))).toHaveLength(1)
    expect(lines.join('\n')).not.toMatch(new RegExp(`"${text}" correct`))
  })

  it('is also an engine begun before the other one’s starter has rested', async () => {
    const { debrief } = await debriefed(ALL, 'starting left')
    expect(debrief.tooEarly).toMatchObject([
      { what: 'left engine start', caution: 'let the starter rest', waitMs: expect.any(Number) },
    ])
  })

  it('is nothing of a run in order, where what came late came right', async () => {
    const { debrief } = await debriefed([...ALL, ...LEFT, ...TO_FLAP])
    expect(debrief.tooEarly).toEqual([])
    const mended = await debriefed(
      upTo('remove the chocks'),
      'disconnect the cable',
      'external power off',
      'disconnect the cable',
    )
    expect(mended.tries).toHaveLength(1)
    expect(mended.debrief.exchanges.flatMap(({ turns }) => turns).find(({ id }) => id === 'crew.unplug')).toMatchObject(
      {
        done: true,
        tries: [{ tooEarly: expect.any(String) }, { judgement: { verdict: 'correct' } }],
      },
    )
  })

  it('is not what was wrong anyway', async () => {
    const { debrief } = await debriefed(upTo('remove the chocks'), 'external power on')
    expect(debrief.tooEarly).toEqual([])
  })

  it('is told of a call or an answer where Otherseat says "not yet", and only there: every call at every place', async () => {
    const { hear, pass, state, pack } = await rig({ talk: TALK })
    const all = [...ALL, ...LEFT, ...TO_FLAP]
    let refused = 0
    for (const [index, next] of all.entries()) {
      if (next === LEFT[0]) await pass(13_000)
      const before = state()
      for (const text of new Set(all.slice(all.indexOf('confirm doors and steps')))) {
        const at = before.startedAt + before.t
        const heard = { text, by: 'typed', listenId: before.listenId, beganAt: at, endedAt: at } as const
        const stamp = { v: 1, seq: before.seq + 1, runId: before.runId, t: before.t, wall: '' } as const
        const event = { ...interpret(pack, before, heard).event, ...stamp }
        const after = step(pack, before, event)
        const isRefused = after.effects.some((effect) => effect.type === 'speak' && /Not yet, /.test(effect.text))
        // A list that was not called, or another start under way, is no caution of the pack's.
        const isOther = after.effects.some(
          (effect) => effect.type === 'speak' && /not called|is not complete/.test(effect.text),
        )
        // Half of a call, or words that may be one, are told why not, and are no act of the pilot's.
        const isHalf = event.type === 'transmitted' && event.judgement.verdict !== 'correct'
        const early = tooEarlyIn({ pack, event, before, after: after.state })
        const place = `"${text}" at ${index}, ${next}`
        if (early) expect(isRefused, place).toBe(true)
        if (isRefused && !isOther && !isHalf) expect(early, place).toBeDefined()
        if (isRefused) refused++
      }
      await hear(next, { by: 'typed' })
    }
    expect(refused).toBeGreaterThan(30)
  })
})
