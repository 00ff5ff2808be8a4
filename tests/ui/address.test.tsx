/** What stands behind the "#" of the page's address while the app is still loading. */

import { cleanup, screen } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { asRun, flownRun, keptIn } from '../app/runs/flownRuns.ts'
import { createFakeLog } from '../fakes/log.ts'
import { stage } from './stage.tsx'

describe('an address', () => {
  it('stays as it is until the code has loaded that leads to its screen: a reload meanwhile comes back to it', async () => {
    history.replaceState(null, '', '#runs')
    let arrive = () => {}
    const coded = new Promise<void>((resolve) => {
      arrive = resolve
    })
    stage({}, {}, coded)
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect(location.hash).toBe('#runs')
    arrive()
    await screen.findByRole('heading', { level: 1, name: 'Runs' })
    expect(location.hash).toBe('#runs')
  })

  it('leads back to the run that is graded, and to the runs where it is gone', async () => {
    const log = createFakeLog()
    await keptIn(log, asRun(await flownRun(), 'january', 5))
    history.replaceState(null, '', '#grading/january')
    stage({}, { log })
    await screen.findByRole('heading', { level: 1, name: 'Grade a recorded run' })
    expect(location.hash).toBe('#grading/january')
    cleanup()
    history.replaceState(null, '', '#grading/nobody')
    stage({}, { log })
    await screen.findByText(/The run cannot be graded/)
  })
})
