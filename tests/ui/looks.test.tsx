import { screen, within } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { NO_TIMES } from '../../src/kernel/run/debrief/look/lookTimes.ts'
import { flying } from './stage.tsx'

const TIMES = {
  value: { count: 40, mean: Math.log(1_300), squares: 39 * 0.2 ** 2 },
  state: NO_TIMES,
  word: { count: 40, mean: Math.log(400), squares: 39 * 0.2 ** 2 },
}
const settings = { ...DEFAULT_SETTINGS, welcomed: true, stations: false, ownValues: false, lookTimes: TIMES }

/** Two answers by voice, the second sooner than a look. */
async function afterwards(initial: Parameters<typeof flying>[0] = {}) {
  const flight = await flying(initial)
  const { ear, clock, log } = flight
  await flight.answer('load figures list')
  for (const [text, waitMs] of [
    ['two four three six zero', 1_300],
    ['four point three up', 350],
  ] as const) {
    await screen.findByRole('heading', { level: 1, name: waitMs === 350 ? 'takeoff trim' : 'zero fuel weight' })
    const endedAt = clock.now()
    clock.skip(waitMs)
    ear.hear(text, { beganAt: endedAt + waitMs })
  }
  await screen.findByRole('heading', { level: 1, name: 'V one' })
  await flight.user.click(screen.getByRole('button', { name: 'Debrief' }))
  await screen.findByRole('heading', { name: 'Did you look?' })
  return { ...flight, log }
}

describe('“Did you look?” in the debrief', () => {
  it('tells the pilot’s times, the threshold with its errors, and each answer with its likelihood', async () => {
    await afterwards({ settings })
    expect(screen.getByText('1 of 2 answers quicker than a look usually takes you')).toBeTruthy()
    expect(screen.getByText(/^To read a value takes you about 1\.\d\d s, .* Quick is below 0\.\d\d s/)).toBeTruthy()
    const answers = within(screen.getByRole('list', { name: 'Answers and their times', hidden: true }))
    const [slow, quick] = answers.getAllByRole('listitem', { hidden: true })
    expect(slow?.textContent).toMatch(
      /zero fuel weight.*1\.30 s after the challenge: .* likelier with a look than without/,
    )
    expect(quick?.textContent).toMatch(
      /takeoff trim.*0\.35 s after the challenge: .* likelier without a look than with/,
    )
    const kind = screen.getByRole('region', { name: 'Perhaps answered without looking', hidden: true })
    expect(kind.textContent).toContain('“four point three up”')
  })

  it('without a calibration does not know, and leads to the sound check', async () => {
    const { user, store } = await afterwards()
    await user.click(screen.getByText('not known yet'))
    await user.click(screen.getByRole('button', { name: 'Sound check' }))
    expect(store.getState().screen).toBe('sound')
  })

  it('has the run hold what was known when it began, and takes no half run into it', async () => {
    const { log, store } = await afterwards({ settings })
    expect(log.events[0]).toMatchObject({ type: 'runStarted', settings: { lookTimes: TIMES } })
    expect(store.getState().settings).toMatchObject({ lookTimes: TIMES, lookTimesFrom: '' })
  })
})
