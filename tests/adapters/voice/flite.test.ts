import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import type { Recording } from '../../../src/adapters/voice/embeddedVoice.ts'
import { createFlite } from '../../../src/adapters/voice/flite.ts'
import { RATE } from '../../../src/adapters/voice/speechSound.ts'
import { ROLES, type Role } from '../../../src/kernel/pack/roles.ts'

const file = (name: string) => readFileSync(fileURLToPath(new URL(`../../../audio/voice/${name}`, import.meta.url)))
const fliteOf = (role: Role) => createFlite(file(`${role}.wasm`))
const secondsOf = (samples: Float32Array) => samples.length / RATE
const loudest = (samples: Float32Array) => samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)

describe.each(ROLES)('the synthesiser of %s', (role) => {
  test('is the one whose checksum stands beside it', () => {
    const sum = createHash('sha256')
      .update(file(`${role}.wasm`))
      .digest('hex')
    expect(file('SHA256SUMS').toString()).toContain(`${sum}  ${role}.wasm\n`)
  })

  test('says what has no clip, neither silent nor in a rush', async () => {
    const samples = (await fliteOf(role)).say('canopy jettison handle, pinned and safely stowed')
    expect(loudest(samples)).toBeGreaterThan(0.3)
    // Seven words: from two to five a second, as people speak.
    expect(secondsOf(samples)).toBeGreaterThan(7 / 5)
    expect(secondsOf(samples)).toBeLessThan(7 / 2 + 1)
  })

  test('says words of the trade as long as their clips are, so as the clips say them', async () => {
    const { clips } = JSON.parse(file(`${role}.json`).toString()) as Recording
    const flite = await fliteOf(role)
    const words = ['niner', 'zero', 'one zero', 'quebec', 'decimal', 'fife'].filter((word) =>
      Object.hasOwn(clips, word),
    )
    expect(words.length).toBeGreaterThan(2)
    // The noise in a breath is drawn anew, and what is cut off as silence with it.
    for (const word of words) {
      const [, lengthMs = 0] = clips[word] ?? []
      expect(Math.abs(secondsOf(flite.say(word)) * 1000 - lengthMs), word).toBeLessThan(80)
    }
  })
})

describe('a synthesiser', () => {
  test('takes longer for more', async () => {
    const flite = await fliteOf('broadcast')
    expect(secondsOf(flite.say('xylophone one two three'))).toBeGreaterThan(secondsOf(flite.say('xylophone')) * 1.5)
  })

  test.each(['', '...', 'Сегодня', 'flap 漢字 five'])(
    'says nothing of "%s", and all of what comes next',
    async (text) => {
      const flite = await fliteOf('broadcast')
      const before = secondsOf(flite.say('xylophone'))
      expect(() => flite.say(text)).toThrow(/nothing was spoken|no sound for/)
      expect(secondsOf(flite.say('xylophone'))).toBe(before)
    },
  )

  test('takes "a" for the letter before another one, and else for the article', async () => {
    const flite = await fliteOf('broadcast')
    expect(flite.say('a p u bleed')).toEqual(flite.say('ay p u bleed'))
    expect(flite.say('a pen')).not.toEqual(flite.say('ay pen'))
  })

  test('reads a name with accents without them', async () => {
    const flite = await fliteOf('broadcast')
    expect(flite.say('Malmö — “tower”')).toEqual(flite.say('Malmo   tower'))
  })

  test('keeps no more memory the more it has said', async () => {
    const flite = await fliteOf('broadcast')
    const text = 'canopy jettison handle, pinned'
    flite.say(text)
    const before = flite.memoryBytes()
    for (let times = 0; times < 100; times++) flite.say(text)
    expect(flite.memoryBytes()).toBe(before)
  })
})
