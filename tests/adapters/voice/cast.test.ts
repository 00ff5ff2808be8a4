import { describe, expect, test } from 'vitest'
import { castFor } from '../../../src/adapters/voice/cast.ts'
import { ROLES } from '../../../src/kernel/pack/roles.ts'

const voice = (name: string, lang: string, isDefault = false) =>
  ({ name, lang, localService: true, default: isDefault }) as SpeechSynthesisVoice

const ALL = [
  voice('Own', 'en-US', true),
  voice('Spare', 'en-US'),
  voice('Isles', 'en-GB'),
  voice('Isles again', 'en-GB'),
  voice('South', 'en-AU'),
  voice('West', 'en-IE'),
]
const namesOf = (voices: readonly SpeechSynthesisVoice[], set = '') =>
  ROLES.map((role) => castFor(voices, set, role)?.voice.name)

describe('the browser’s voices for the roles', () => {
  test('are one of each region before a second of any', () => {
    expect(namesOf(ALL)).toEqual(['Own', 'Isles', 'South', 'West'])
  })

  test('leave the one that was set to Otherseat', () => {
    expect(namesOf(ALL, 'Isles')).toEqual(['Isles', 'Own', 'South', 'West'])
  })

  test.each([1, 2, 3, 4, 5, 6])('where there are %i of them no two roles sound the same', (count) => {
    const parts = ROLES.map((role) => castFor(ALL.slice(0, count), '', role))
    const sounds = new Set(parts.map((part) => `${part?.voice.name} ${part?.pitch}`))
    expect(sounds.size).toBe(ROLES.length)
    expect(parts[0]).toMatchObject({ pitch: 1, rate: 1 })
  })

  test('are none where there is none', () => {
    expect(castFor([], '', 'controller')).toBeUndefined()
  })
})
