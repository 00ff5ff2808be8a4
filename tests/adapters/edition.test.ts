import { describe, expect, it } from 'vitest'
import { createEdition } from '../../src/adapters/edition.ts'
import type { EditionState } from '../../src/ports.ts'

type Part = 'installing' | 'waiting' | 'active'

/** A browser's registration: workers that move from place to place. */
function browser({ locks = [], refuses = false }: { locks?: string[]; refuses?: boolean } = {}) {
  const told: unknown[] = []
  const worker = Object.assign(new EventTarget(), { postMessage: (message: unknown) => void told.push(message) })
  const places: Partial<Record<Part, typeof worker>> = {}
  // Getters: what is copied would stand still.
  const registration = new (class extends EventTarget {
    get installing() {
      return places.installing ?? null
    }
    get waiting() {
      return places.waiting ?? null
    }
    get active() {
      return places.active ?? null
    }
  })()
  const container = Object.assign(new EventTarget(), {
    register: async () => {
      if (refuses) throw new Error('not in a private window')
      return registration
    },
    ready: Promise.resolve(registration),
  })
  const states: EditionState[] = []
  let reloads = 0
  const edition = createEdition({
    script: new URL('http://localhost/sw.js'),
    container: container as unknown as ServiceWorkerContainer,
    locks: { query: async () => ({ held: locks.map((name) => ({ name })) }) },
    reload: () => reloads++,
  })
  return {
    edition,
    told,
    reloads: () => reloads,
    last: () => states.at(-1),
    keep: () => edition.keep((state) => states.push(state)),
    /** A later edition is found, fetched, and comes to this place. */
    comes(place: Part) {
      places.installing = worker
      registration.dispatchEvent(new Event('updatefound'))
      delete places.installing
      places[place] = worker
      worker.dispatchEvent(new Event('statechange'))
    },
    takesOver: () => container.dispatchEvent(new Event('controllerchange')),
  }
}

describe('the edition', () => {
  it('is kept once it has been fetched; the first is newer than none', async () => {
    const here = browser()
    await here.keep()
    expect(here.last()).toEqual({ isKept: false, hasNewer: false })
    here.comes('waiting')
    expect(here.last()).toEqual({ isKept: false, hasNewer: false })
    here.comes('active')
    expect(here.last()).toMatchObject({ isKept: true })
  })

  it('tells of a later one that waits, and goes on with it when asked', async () => {
    const here = browser()
    await here.keep()
    here.comes('active')
    here.comes('waiting')
    expect(here.last()).toEqual({ isKept: true, hasNewer: true })
    expect(here.told).toEqual([])
    expect(await here.edition.takeNewer()).toBe(true)
    expect(here.told).toEqual([{ type: 'SKIP_WAITING' }])
    expect(here.reloads()).toBe(0)
    here.takesOver()
    expect(here.reloads()).toBe(1)
  })

  it('never while a run is on in any tab', async () => {
    const here = browser({ locks: ['another lock', 'otherseat.run.5'] })
    await here.keep()
    here.comes('active')
    here.comes('waiting')
    expect(await here.edition.takeNewer()).toBe(false)
    expect(here.told).toEqual([])
  })

  it('is not kept where the browser refuses, or has no such thing', async () => {
    const here = browser({ refuses: true })
    await here.keep()
    expect(here.last()).toBeUndefined()
    const states: unknown[] = []
    await createEdition({ script: undefined, reload: () => undefined }).keep((state) => states.push(state))
    expect(states).toEqual([])
  })
})
