/** Another name or id in pack.yaml: that is all that changes. */

import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/packs/files/inspect.ts'
import { copied, retitled } from '../../../src/packs/files/retitle.ts'
import { SMALL_PACK } from '../../fakes/smallPack.ts'

const before = SMALL_PACK['pack.yaml'] ?? ''

describe('a pack is renamed', () => {
  it.each([
    ['Home wren', 'name: Home wren\n'],
    ['Wren: "two" #2', 'name: "Wren: \\"two\\" #2"\n'],
    ['yes', 'name: "yes"\n'],
  ])('to %s, and not a letter changes besides', async (name, line) => {
    const files = retitled(SMALL_PACK, { name }) ?? {}
    expect(files).toEqual({ ...SMALL_PACK, 'pack.yaml': before.replace('name: Wren\n', line) })
    expect((await inspect(files)).name).toBe(name)
  })

  it.each([
    ['cannot be read', 'name: ['],
    ['states no name', 'id: wren'],
    ['has something else for a name', 'name: [a]'],
  ])('not where its pack.yaml %s', (_, text) => {
    expect(retitled({ ...SMALL_PACK, 'pack.yaml': text }, { name: 'Home' })).toBeUndefined()
  })
})

describe('a copy', () => {
  it('has the next free id and says that it is one', async () => {
    const one = await inspect(copied(SMALL_PACK, { id: 'wren', name: 'Wren' }, new Set(['wren'])))
    expect([one.id, one.name, one.problems]).toEqual(['wren-2', 'Wren (copy)', []])
    const two = await inspect(copied(SMALL_PACK, { id: 'wren-2', name: 'Wren' }, new Set(['wren', 'wren-2'])))
    expect([two.id, two.name]).toEqual(['wren-3', 'Wren (copy 2)'])
  })

  it('of one that cannot be read is as it is', () => {
    const broken = { 'pack.yaml': 'id: [' }
    expect(copied(broken, { id: '', name: '' }, new Set())).toEqual(broken)
  })
})
