/** What forms wrote is taken back while it stands as they left it, and only then. */

import { describe, expect, it } from 'vitest'
import { standing, takenBack, type Writing, withWriting } from '../../src/app/packs/writtenUndo.ts'

const step = (before: string, after: string, words = 'response of flaps'): Writing => ({
  path: 'procedures.yaml',
  ...{ before, after, words },
})
const ITEMS =
  '- {item: flaps, response: up}\n- {item: gear, response: down}\n- {item: lights, challenge: lights of all kinds, response: on}\n'
const without = (part: string) => ITEMS.replace(new RegExp(`.*${part}.*\\n`), '')

describe('a step', () => {
  it('of one field is one, and none where the field says again what it said', () => {
    const [a, ab] = ['x: a', 'x: ab']
    const once = withWriting(withWriting([], step('x: ', a)), step(a, ab))
    expect(once).toEqual([step('x: ', ab)])
    expect(withWriting(once, step(ab, 'x: '))).toEqual([])
  })

  it('is none any more where its piece is gone, or was undone in the text', () => {
    const response = step(ITEMS, ITEMS.replace('down', 'up'))
    const deleted = step(response.after, without('gear'), 'item gear')
    const past = [response, deleted]
    const typed = deleted.after.replace('on}', 'off}')
    expect(standing(past, () => typed)).toEqual(past)
    // Taken back, and then the text by its own key as it was before that.
    expect(standing([response], () => typed)).toEqual([])
    expect(standing(past, () => response.after.replace('on}', 'off}'))).toEqual([response])
    expect(standing([response], () => ITEMS)).toEqual([])
  })

  it('is taken back with what was typed elsewhere since left as it is', () => {
    const typed = without('gear').replace('on}', 'off}')
    expect(takenBack(typed, step(ITEMS, without('gear')))).toBe(ITEMS.replace('on}', 'off}'))
  })
})
