/** What stands behind the "#" of the page's address while the app is still loading. */

import { screen } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
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
})
