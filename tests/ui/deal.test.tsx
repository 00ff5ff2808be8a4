import { screen, waitFor } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { allText, demo, stage } from './stage.tsx'

const NUMBER = 7

describe('a dealt departure', () => {
  it('fills in the preliminary figures, brings the final ones on its own, and tells its trap only in the debrief', async () => {
    const dealt = dealtBy(demo, NUMBER)
    if (!dealt) throw new Error('the demo pack deals nothing')
    const { user, clock, log, store } = stage()
    await user.type(screen.getByRole('textbox', { name: /Number/ }), String(NUMBER))
    await user.click(screen.getByRole('button', { name: 'Draw a departure' }))
    await screen.findByRole('heading', { level: 1, name: 'Figures of this departure' })
    expect(store.getState().draft).toEqual(dealt.preliminary)
    expect(allText()).not.toContain(dealt.trap.told)

    await user.click(screen.getByRole('button', { name: 'Accept figures as revision 1' }))
    await screen.findByRole('heading', { level: 1, name: 'Figures flow' })
    expect(log.events[0]).toMatchObject({ type: 'runStarted', dealt: NUMBER })
    clock.advance(dealt.finalAfterMinutes * 60_000 - 1)
    expect(log.events.filter(({ type }) => type === 'figuresRevised')).toHaveLength(1)
    clock.advance(1)
    await waitFor(() => expect(log.events.filter(({ type }) => type === 'figuresRevised')).toHaveLength(2))
    expect(log.events.findLast(({ type }) => type === 'figuresRevised')).toMatchObject({ status: 'final' })
    expect(allText()).not.toContain(dealt.trap.told)

    await user.click(screen.getByRole('button', { name: 'Debrief' }))
    await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
    // Not while the run is on.
    expect(allText()).not.toContain(dealt.trap.told)
    const last = log.events.at(-1)
    if (!last) throw new Error('nothing was stored')
    const { v, runId, seq, t, wall } = last
    const ended = { v, runId, seq: seq + 1, t, wall, type: 'ended' } as const
    store.setState({ debrief: debriefOf(demo, [...log.events, ended]) })
    await waitFor(() => expect(allText()).toContain(dealt.trap.told))
  })

  it('says which number would be right where it is none', async () => {
    const { user } = stage()
    await user.type(screen.getByRole('textbox', { name: /Number/ }), '7.5')
    expect(allText()).toContain('A whole number from 0 to 9999 would be right.')
  })
})
