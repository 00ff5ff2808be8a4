import { describe, expect, it } from 'vitest'
import { createBrowserEar } from '../../../../src/adapters/ear/browser/browserEar.ts'
import { createChosenEar } from '../../../../src/adapters/ear/chooseEar.ts'
import type { EarParts, WayOfHearing } from '../../../../src/adapters/ear/ear.ts'
import { createVirtualClock } from '../../../../src/app/rehearsal/virtualClock.ts'
import type { Vocabulary } from '../../../../src/kernel/hearing/hearable.ts'
import type { EarEvent } from '../../../../src/ports.ts'
import { createFakeEar, type FakeEar } from '../../../fakes/ear.ts'
import { createFakeRecognition } from '../../../fakes/recognition.ts'

const VOCABULARY: Vocabulary = {
  ...{ phrases: ['brake set', 'brake released'], words: ['brake', 'set', 'released'], besideValues: ['set'] },
  ...{
    challenges: ['parking brake'],
    lists: ['before start'],
    others: ['done'],
    commands: ['say again'],
    talk: [],
  },
}
const request = (number: number, shapes: 'value' | 'words' = 'words') => ({
  listenId: number,
  hearable: { shapes: shapes === 'value' ? [{ kind: 'integer' } as const] : [], yesNo: false },
  after: 0,
})
const profiles = { get: () => undefined, set: () => {} }

/** An ear of the port as one way of hearing: it reads what is asked when it opens. */
function asWay(ear: FakeEar, { asked, emit }: EarParts): WayOfHearing {
  ear.subscribe(emit)
  return {
    ...ear,
    async open() {
      const { vocabulary, request } = asked()
      if (vocabulary) await ear.open(vocabulary)
      if (request) ear.listen(request)
    },
  }
}

class Phrase {
  readonly phrase: string
  readonly boost: number
  constructor(phrase: string, boost: number) {
    this.phrase = phrase
    this.boost = boost
  }
}

async function listening(...how: Parameters<typeof createFakeRecognition>) {
  const fake = createFakeRecognition(...how)
  const clock = createVirtualClock()
  const allowed = { away: false }
  const settings = () => ({ ear: 'browser', microphone: '', secondModel: false, soundMayLeave: allowed.away })
  const browser = {
    create: (parts: EarParts) => createBrowserEar(parts, { recognition: fake.maker, phrase: Phrase }),
  }
  const ear = createChosenEar({ clock, settings, modelBase: '', profiles, ears: { browser }, fallback: 'browser' })
  const events: EarEvent[] = []
  ear.subscribe((event) => events.push(event))
  await ear.open(VOCABULARY)
  ear.listen(request(3))
  const heard = () => events.flatMap((event) => (event.type === 'heard' ? [event.heard] : []))
  const failure = () => events.flatMap((event) => (event.type === 'failed' ? [event.failure] : [])).at(-1)
  return { fake, clock, ear, events, heard, failure, allowed }
}

describe('the browser’s own recognition', () => {
  it('passes on all that it may have heard, and no confidence where the browser gives none', async () => {
    const { fake, heard, events } = await listening()
    fake.begins()
    fake.interim('brake')
    fake.hears(['brake set', 0.82], ['brake said', 0.4], ['rake set', 0])
    expect(heard()).toMatchObject([
      {
        ...{ listenId: 3, by: 'voice', text: 'brake set', score: 0.82 },
        alternatives: [{ text: 'brake said', score: 0.4 }, { text: 'rake set' }],
      },
    ])
    expect(heard()[0]?.alternatives?.[1]).not.toHaveProperty('score')
    expect(events).toContainEqual({ type: 'soFar', listenId: 3, text: 'brake' })
    expect(fake.made.at(-1)?.maxAlternatives).toBeGreaterThan(1)
  })

  it('stays on the device where the browser has its language there', async () => {
    const { fake } = await listening('available')
    expect(fake.made.at(-1)?.processLocally).toBe(true)
  })

  it('is told the whole vocabulary alike, whatever the item asks for', async () => {
    const { fake, ear } = await listening()
    const told = [...(fake.made.at(-1)?.phrases ?? [])]
    ear.listen(request(4, 'value'))
    expect(fake.made.at(-1)?.phrases).toEqual(told)
    const phrases = told as Phrase[]
    expect(phrases.map(({ phrase }) => phrase)).toEqual(expect.arrayContaining(['brake set', 'brake released']))
    expect(new Set(phrases.map(({ boost }) => boost)).size).toBe(1)
  })

  it('listens on after silence, and after an end that nothing explains', async () => {
    const { fake, clock, failure } = await listening()
    for (const [index, end] of (['no-speech', 'aborted', undefined] as const).entries()) {
      fake.begins()
      if (end) fake.fails(end, 'end')
      else fake.ends()
      clock.advance(200)
      expect(fake.made).toHaveLength(index + 2)
      expect(fake.made.at(-1)?.isStarted()).toBe(true)
    }
    expect(failure()).toBeUndefined()
  })

  it('listens on without phrases where the browser takes none', async () => {
    const { fake, clock, failure } = await listening()
    fake.begins()
    fake.fails('phrases-not-supported', 'nothing')
    clock.advance(200)
    expect(fake.made.at(-1)).toMatchObject({ phrases: [] })
    expect(failure()).toBeUndefined()
  })

  it('judges nothing that comes after the ear was shut', async () => {
    const { fake, ear, heard } = await listening()
    fake.begins()
    ear.shut()
    fake.hears(['brake set', 0.9])
    expect(heard()).toEqual([])
  })

  it('while the talk key waits does not listen', async () => {
    const { fake, ear } = await listening()
    ear.gate('shut')
    expect(fake.made.every((one) => !one.isStarted())).toBe(true)
    ear.gate('open')
    expect(fake.made.at(-1)?.isStarted()).toBe(true)
  })
})

describe('an error of it', () => {
  it.each([
    ['audio-capture', /no sound/],
    ['not-allowed', /not allowed the microphone/],
    ['service-not-allowed', /does not let a page/],
    ['network', /needs the network/],
    ['language-not-supported', /does not have English/],
    ['something-new', /something-new/],
  ])('"%s" ends in a clear line, with and without an end after it', async (code, line) => {
    for (const then of ['end', 'nothing'] as const) {
      const { fake, failure, clock, events } = await listening()
      fake.begins()
      fake.fails(code, then)
      expect(failure()).toMatchObject({ code: 'service', message: expect.stringMatching(line) })
      expect(events.filter(({ type }) => type === 'failed')).toHaveLength(1)
      clock.advance(600_000)
      expect(fake.made).toHaveLength(1)
      expect(clock.pending()).toBe(0)
    }
  })

  it.each([
    ['that never begins', () => {}, 6_000],
    [
      'that ends again and again without a word',
      ({ fake, clock }: Awaited<ReturnType<typeof listening>>) => {
        for (let count = 0; count < 20; count++) {
          fake.begins()
          fake.ends()
          clock.advance(200)
        }
      },
      0,
    ],
  ])('%s is told', async (_what, does, waitMs) => {
    const on = await listening()
    does(on)
    on.clock.advance(waitMs)
    expect(on.failure()?.message).toMatch(/does not answer/)
  })

  it('at the start itself is told', async () => {
    expect((await listening('available', { refusesStart: true })).failure()?.message).toMatch(/does not answer/)
  })

  it('that is a silence without an end is got over', async () => {
    const { fake, clock, failure } = await listening()
    fake.begins()
    clock.advance(61_000)
    expect(fake.made).toHaveLength(2)
    expect(failure()).toBeUndefined()
  })
})

describe('sound that would leave the device', () => {
  it.each(['unavailable', 'downloadable'] as const)('(%s) does so only where that was allowed', async (status) => {
    const { fake, failure, allowed, ear } = await listening(status)
    expect(fake.made).toHaveLength(0)
    expect(failure()?.message).toMatch(/not allowed/)
    allowed.away = true
    await ear.open(VOCABULARY)
    expect(fake.made.at(-1)).toMatchObject({ processLocally: false })
  })
})

describe('where it fails in a run', () => {
  it('the ear on this device takes over the order in force, and says that it hears', async () => {
    const fake = createFakeRecognition()
    const device = createFakeEar()
    const ear = createChosenEar({
      ...{ clock: createVirtualClock(), modelBase: '', profiles },
      settings: () => ({ ear: 'browser', microphone: '', secondModel: false, soundMayLeave: false }),
      ears: {
        browser: { create: (parts) => createBrowserEar(parts, { recognition: fake.maker, phrase: undefined }) },
        device: { create: (parts) => asWay(device, parts) },
      },
      fallback: 'device',
    })
    const events: string[] = []
    ear.subscribe((event) => events.push(event.type))
    await ear.open(VOCABULARY)
    ear.listen(request(5))
    expect(device.listening()).toBeUndefined()
    fake.begins()
    fake.fails('network', 'nothing')
    await new Promise((done) => setTimeout(done, 0))
    expect(events.filter((type) => type === 'failed' || type === 'back')).toEqual(['failed', 'back'])
    expect(device.listening()).toMatchObject({ listenId: 5 })
    expect(device.vocabularies).toEqual([VOCABULARY])
    ear.listen(request(6))
    expect(device.listening()).toMatchObject({ listenId: 6 })
  })
})
