/** Preact may run the effects of a last render 35 ms after it, and needs the page for that. */

import { afterAll } from 'vitest'

afterAll(() => new Promise((done) => setTimeout(done, 150)))
