import { describe, expect, test } from 'vitest'
import { joinVoices } from '../../../src/adapters/voice/chooseVoice.ts'
import type { Outcome } from '../../../src/adapters/voice/utterance.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'

function voices({ usable = true, browser = 'spoken', embedded = 'spoken', voice = '' } = {}) {
  const said: string[] = []
  const settings = { voice, rate: 1, radioSound: false }
  const joined = joinVoices({
    settings: () => settings,
    clock: createVirtualClock(),
    sound: { running: async () => undefined },
    browser: {
      isUsable: async () => usable,
      voices: () => ['Near'],
      endedAt: () => undefined,
      speak: async (text, role) => {
        said.push(`browser: ${role === 'otherseat' ? '' : `${role} `}${text}`)
        return browser as Outcome
      },
    },
    embeddedFor: (role) => {
      const name = role === 'otherseat' ? 'embedded' : `embedded ${role}`
      if (role !== 'otherseat') said.push(`${name} made`)
      return {
        prepare: async (texts) => void said.push(`${name} prepared for ${texts.join(', ')}`),
        endedAt: () => 17,
        speak: async (text) => {
          said.push(`${name}: ${text}`)
          return embedded as Outcome
        },
      }
    },
  })
  return { joined, said, settings }
}

describe('which voice speaks', () => {
  test('the browser’s, where it has one', async () => {
    const { joined, said } = voices()
    expect(await joined.speak('Flaps?', 'otherseat')).toBe('spoken')
    expect(said).toEqual(['browser: Flaps?'])
  })

  test.each([
    ['the browser has none', { usable: false }],
    ['it is set', { voice: 'embedded' }],
  ])('the embedded one, where %s', async (_why, options) => {
    const { joined, said } = voices(options)
    expect(await joined.speak('Flaps?', 'otherseat')).toBe('spoken')
    expect(said).toEqual(['embedded: Flaps?'])
    expect(joined.name).toBe('embedded')
  })

  test('the embedded one says what the browser’s failed to say, and goes on from there', async () => {
    const { joined, said, settings } = voices({ browser: 'failed' })
    expect(await joined.speak('Flaps?', 'otherseat')).toBe('spoken')
    await joined.speak('Trim?', 'otherseat')
    expect(said).toEqual(['browser: Flaps?', 'embedded: Flaps?', 'embedded: Trim?'])
    settings.voice = 'Near'
    await joined.speak('Fuel?', 'otherseat')
    expect(said.slice(-2)).toEqual(['browser: Fuel?', 'embedded: Fuel?'])
  })

  test('none, where both fail: the screen is left', async () => {
    expect(await voices({ browser: 'failed', embedded: 'failed' }).joined.speak('Flaps?', 'otherseat')).toBe('failed')
  })

  test('the role’s own; an embedded one is made when its role first speaks', async () => {
    const { joined, said } = voices({ voice: 'embedded' })
    await joined.speak('Flaps?', 'otherseat')
    await joined.speak('Read back correct.', 'controller')
    await joined.speak('Negative.', 'controller')
    expect(said).toEqual([
      'embedded: Flaps?',
      'embedded controller made',
      'embedded controller: Read back correct.',
      'embedded controller: Negative.',
    ])
  })

  test('the browser is told whose words they are', async () => {
    const { joined, said } = voices()
    await joined.speak('Read back correct.', 'controller')
    expect(said).toEqual(['browser: controller Read back correct.'])
  })

  test('a text that is cancelled before its voice was found is not spoken', async () => {
    const { joined, said } = voices()
    const utterance = new AbortController()
    const outcome = joined.speak('Flaps?', 'otherseat', utterance.signal)
    utterance.abort()
    expect(await outcome).toBe('cancelled')
    expect(said).toEqual([])
  })
})

test('after a gesture the recording is loaded where the embedded voice will be needed, and only there', async () => {
  const [with_, without] = [voices(), voices({ usable: false })]
  await with_.joined.wake(['canopy'])
  await without.joined.wake(['canopy'])
  expect([with_.said, without.said]).toEqual([[], ['embedded prepared for canopy']])
})

test('a tone that cannot sound does not hold up the run', async () => {
  await expect(voices().joined.tone('attention')).resolves.toBeUndefined()
})
