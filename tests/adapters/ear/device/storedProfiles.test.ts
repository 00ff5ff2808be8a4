import { describe, expect, test } from 'vitest'
import { storeProfiles } from '../../../../src/adapters/ear/device/storedProfiles.ts'

const PLAIN = { level: 0.08, mean: Array.from({ length: 13 }, (_, at) => 20 - at) }
const CLEANED = {
  level: 0.07,
  mean: Array.from({ length: 13 }, (_, at) => 18 - at),
  warp: { utterances: 3, gains: [0, 2, 3, 1] },
}

function tab(kept?: string) {
  const items = new Map(kept === undefined ? [] : [['otherseat.speaker', kept]])
  return {
    items,
    getItem: (key: string) => items.get(key) ?? null,
    setItem: (key: string, text: string) => void items.set(key, text),
  }
}

describe('what is known of the speaker', () => {
  test('is there again after a reload, for each front end its own', () => {
    const storage = tab()
    const before = storeProfiles(storage)
    expect(before.get('plain')).toBeUndefined()
    before.set('plain', { level: 0.5, mean: CLEANED.mean })
    before.set('cleaned', CLEANED)
    before.set('plain', PLAIN)
    const after = storeProfiles(storage)
    expect(after.get('plain')).toEqual(PLAIN)
    expect(after.get('cleaned')).toEqual(CLEANED)
  })

  test.each([
    ['no JSON', '{'],
    ['a mean of another length', JSON.stringify({ plain: { ...PLAIN, mean: [1, 2] } })],
    ['no numbers', JSON.stringify({ plain: { ...PLAIN, level: 'loud' } })],
    ['a voice of other warps', JSON.stringify({ plain: { ...CLEANED, warp: { utterances: 3, gains: [0, 2] } } })],
    ['a voice of no count', JSON.stringify({ plain: { ...CLEANED, warp: { gains: [0, 2, 3, 1] } } })],
    ['silence', JSON.stringify({ plain: { ...PLAIN, level: 0 } })],
    ['something else', '[]'],
  ])('is nothing where %s was kept', (_, text) => {
    expect(storeProfiles(tab(text)).get('plain')).toBeUndefined()
  })

  test('holds until the page is left where nothing can be kept', () => {
    const refusing = {
      getItem: () => null,
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError')
      },
    }
    for (const storage of [refusing, undefined]) {
      const profiles = storeProfiles(storage)
      profiles.set('plain', PLAIN)
      expect(profiles.get('plain')).toEqual(PLAIN)
    }
  })
})
