import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS, readSettings, writeSettings } from '../../src/app/settings.ts'

/** What an edition kept that knew no stations. */
const OLD = {
  phraseology: 'standard',
  coachAfter: 5,
  theme: 'dark',
  ear: 'typing',
  voice: '',
  rate: 1.2,
  welcomed: true,
}
const keeping = (text: string | null) => ({ getItem: () => text, setItem: () => undefined })

describe('settings that were kept', () => {
  it('by an older edition stand, and what it did not know has its default', () => {
    expect(readSettings(keeping(JSON.stringify(OLD)))).toEqual({ ...DEFAULT_SETTINGS, ...OLD })
    expect(readSettings(keeping(JSON.stringify(OLD)))).toMatchObject({
      stations: true,
      radio: 'icao',
      wrongHearBacks: false,
      radioSound: true,
    })
  })

  it.each([true, false])('by an edition that called the second model something else keep the choice: %s', (weighs) => {
    const settings = readSettings(keeping(JSON.stringify({ ...OLD, weighs })))
    expect(settings.secondModel).toBe(weighs)
    expect(settings).not.toHaveProperty('weighs')
  })

  it.each(['not JSON', 'null', '7', null])('as %j are the defaults', (text) => {
    expect(readSettings(keeping(text))).toEqual(DEFAULT_SETTINGS)
  })

  it('are read as they were written', () => {
    const kept = new Map<string, string>()
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
    }
    writeSettings(storage, { ...DEFAULT_SETTINGS, radio: 'faa' })
    expect(readSettings(storage)).toEqual({ ...DEFAULT_SETTINGS, radio: 'faa' })
  })
})
