/** Each test begins at the page's first address with nothing kept; the effects of the last render have the page they need. */

import { afterAll, afterEach } from 'vitest'

afterEach(() => {
  history.replaceState(null, '', '/')
  sessionStorage.clear()
})

// Preact may run them 35 ms after it.
afterAll(() => new Promise((done) => setTimeout(done, 150)))
