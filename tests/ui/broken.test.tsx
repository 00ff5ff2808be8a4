/** What nobody foresaw: told with the log to save, and nothing else of the page is lost. */

import { screen } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { brokenBy } from '../../src/app/broken.ts'
import { stage } from './stage.tsx'

describe('something that broke', () => {
  it('in the making of a screen takes that screen only, and says where', async () => {
    const { user, store } = stage()
    // What no debrief is.
    store.setState({ debrief: {} as never, screen: 'debrief' })
    await screen.findByRole('heading', { name: 'Something broke' })
    expect(screen.getByRole('alert').textContent).toMatch(/undefined/)
    await user.click(screen.getByText('For whoever mends it (nothing is sent)'))
    expect(screen.getByRole('button', { name: 'Reload the page' })).toBeTruthy()
    store.setState({ screen: 'start' })
    await screen.findByRole('heading', { level: 1, name: /.*/ })
    expect(screen.queryByRole('heading', { name: 'Something broke' })).toBeNull()
  })

  it('behind the screen is told above it, until it is hidden', async () => {
    const { user, store } = stage()
    store.setState({ broken: { message: 'No reason was given.', details: '' } })
    expect((await screen.findByRole('alert')).textContent).toContain('No reason was given.')
    await user.click(screen.getByRole('button', { name: 'Hide this' }))
    expect(screen.queryByRole('alert')).toBeNull()
  })

  it.each([
    ['Failed to fetch dynamically imported module: http://localhost/a.js', /could not be fetched/],
    ['error loading dynamically imported module: http://localhost/a.js', /could not be fetched/],
    ['Importing a module script failed.', /could not be fetched/],
    ['', /No reason was given/],
    ['x is not a function', /x is not a function/],
  ])('"%s" is told in one sentence', (message, told) => {
    expect(brokenBy(new Error(message))?.message).toMatch(told)
    expect(brokenBy(message)?.message).toMatch(told)
  })

  it('is none where a browser or an extension speaks of itself', () => {
    expect(brokenBy('ResizeObserver loop completed with undelivered notifications.')).toBeUndefined()
    expect(brokenBy(new Error('x'), 'chrome-extension://abc/content.js')).toBeUndefined()
  })
})
