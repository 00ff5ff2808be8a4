import { screen, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { INPUTS, stage } from './stage.tsx'

const choice = () => screen.getByRole('combobox', { name: 'Begin at' })

describe('where a run begins', () => {
  it('is chosen by phase and activity, and is the beginning unless it is chosen', () => {
    stage()
    expect(choice()).toHaveProperty('value', '')
    expect(within(choice()).getByRole('option', { name: 'before start' })).toBeTruthy()
    // Without voices outside the crew there is nobody to ask for a clearance.
    expect(within(choice()).queryByRole('option', { name: 'push clearance' })).toBeNull()
  })

  it('is said on the run’s screen and in its debrief, and the run is there', async () => {
    const { user, actions, log } = stage()
    await user.selectOptions(choice(), 'before start')
    expect(screen.getByText('Everything before it counts as done.')).toBeTruthy()
    actions.draft(INPUTS.preliminary)
    await user.click(screen.getByRole('button', { name: 'Enter the figures' }))
    await user.click(await screen.findByRole('button', { name: 'Accept figures as revision 1' }))
    expect(await screen.findByRole('heading', { level: 1, name: 'before start' })).toBeTruthy()
    expect(screen.getByText(/^Begun at .*before start$/)).toBeTruthy()
    expect(log.events.map(({ type }) => type)).toEqual(['runStarted', 'figuresRevised', 'begunAt', 'resumed'])
    await actions.showDebrief()
    expect(await screen.findByText(/^Begun at .*before start: what comes before it counts as done/)).toBeTruthy()
  })

  it('of the next run is the beginning again', async () => {
    const { user, actions } = stage()
    await user.selectOptions(choice(), 'before start')
    actions.draft(INPUTS.preliminary)
    await actions.enterRevision()
    await actions.endRun()
    expect(await screen.findByRole('combobox', { name: 'Begin at' })).toHaveProperty('value', '')
  })
})
