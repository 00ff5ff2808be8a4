/** Which ear hears, and that what was asked of one is asked of the next. */

import { describe, expect, it } from 'vitest'
import { createChosenEar } from '../../../src/adapters/ear/chooseEar.ts'
import type { EarParts, WayOfHearing } from '../../../src/adapters/ear/ear.ts'
import { earOffers } from '../../../src/adapters/ear/ears.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import type { Vocabulary } from '../../../src/kernel/hearing/hearable.ts'
import type { EarEvent } from '../../../src/ports.ts'

const VOCABULARY = { phrases: ['brake set'] } as unknown as Vocabulary
const REQUEST = { listenId: 3, hearable: { shapes: [], yesNo: false }, after: 0 }
const FAILED: EarEvent = { type: 'failed', failure: { code: 'service', message: 'no network' } }

function ears(chosen: string) {
  const did: string[] = []
  const parts: Record<string, EarParts> = {}
  const events: string[] = []
  const choice = { ear: chosen }
  const ear = (name: string) => ({
    create(its: EarParts): WayOfHearing {
      parts[name] = its
      const note =
        (what: string): (() => void) =>
        () =>
          void did.push(`${name} ${what}`)
      return {
        async open() {
          const { vocabulary, request, gate } = its.asked()
          did.push(`${name} opens: ${vocabulary?.phrases}, ${request?.listenId}, ${gate}`)
        },
        async close() {
          did.push(`${name} closes`)
        },
        ...{ listen: note('listens'), shut: note('shuts'), gate: note('gate') },
      }
    },
  })
  const port = createChosenEar({
    ...{ clock: createVirtualClock(), modelBase: '', profiles: { get: () => undefined, set: () => {} } },
    settings: () => ({ ...choice, microphone: '', secondModel: false, soundMayLeave: false }),
    ears: { device: ear('device'), browser: ear('browser') },
    fallback: 'device',
  })
  port.subscribe(({ type }) => events.push(type))
  return { port, did, parts, events, choice }
}
const settled = () => new Promise((done) => setTimeout(done, 0))

describe('the chosen ear', () => {
  it.each([
    ['browser', 'browser'],
    ['device', 'device'],
    ['an ear of another edition', 'device'],
    ['constructor', 'device'],
  ])('chosen as %s is the %s’s', async (chosen, opened) => {
    const { port, did } = ears(chosen)
    await port.open(VOCABULARY)
    expect(did).toEqual([`${opened} opens: brake set, undefined, open`])
  })

  it('is closed where another one is chosen, which is asked for the same', async () => {
    const { port, did, choice } = ears('device')
    port.gate('ended')
    await port.open(VOCABULARY)
    port.listen(REQUEST)
    choice.ear = 'browser'
    await port.open(VOCABULARY)
    expect(did.slice(1)).toEqual(['device listens', 'device closes', 'browser opens: brake set, 3, ended'])
  })

  it('listens to nothing any more once it is shut or closed', async () => {
    for (const end of ['shut', 'close'] as const) {
      const { port, parts } = ears('device')
      await port.open(VOCABULARY)
      port.listen(REQUEST)
      await port[end]()
      expect(parts.device?.asked().request).toBeUndefined()
    }
  })

  it('that fails is followed by the device’s, which says that it hears', async () => {
    const { port, did, parts, events } = ears('browser')
    await port.open(VOCABULARY)
    port.listen(REQUEST)
    parts.browser?.emit(FAILED)
    await settled()
    expect(did.slice(2)).toEqual(['browser closes', 'device opens: brake set, 3, open'])
    expect(events).toEqual(['failed', 'back'])
  })

  it('of the device that fails is the end of it', async () => {
    const { port, did, parts, events } = ears('device')
    await port.open(VOCABULARY)
    parts.device?.emit(FAILED)
    await settled()
    expect(did).toHaveLength(1)
    expect(events).toEqual(['failed'])
  })

  it('alone is heard: what another one still says is dropped', async () => {
    const { port, parts, events, choice } = ears('browser')
    await port.open(VOCABULARY)
    choice.ear = 'device'
    await port.open(VOCABULARY)
    parts.browser?.emit(FAILED)
    expect(events).toEqual([])
  })
})

it('where the browser has no recognition of its own, only the device’s ear is offered', async () => {
  expect((await earOffers()).map(({ name }) => name)).toEqual(['device'])
})
