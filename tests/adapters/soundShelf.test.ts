import 'fake-indexeddb/auto'
import { IDBObjectStore } from 'fake-indexeddb'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { createSoundShelf } from '../../src/adapters/soundShelf.ts'

let count = 0
const name = () => `sounds ${++count}`
const ONE = Int16Array.of(1, -2, 32_767, -32_768)
const TWO = Int16Array.of(5, 6)

afterEach(() => vi.restoreAllMocks())

describe('the shelf of sounds', () => {
  test('keeps each under its run and event, to the bit, over a reload', async () => {
    const both = name()
    await createSoundShelf(both).put('run', new Map([[12, ONE]]))
    const shelf = createSoundShelf(both)
    await shelf.put('run', new Map([[3, TWO]]))
    await shelf.put('other', new Map([[3, ONE]]))
    expect(await shelf.numbers('run')).toEqual([3, 12])
    expect(await shelf.read('run', 12)).toEqual(ONE)
    expect(await shelf.read('run', 4)).toBeUndefined()
    expect(await shelf.read('nobody', 12)).toBeUndefined()
  })

  test('leaves what is there as it is', async () => {
    const shelf = createSoundShelf(name())
    await shelf.put('run', new Map([[3, ONE]]))
    await shelf.put(
      'run',
      new Map([
        [3, TWO],
        [4, TWO],
      ]),
    )
    expect(await shelf.read('run', 3)).toEqual(ONE)
    expect(await shelf.size()).toEqual({ bytes: 12, runs: 1 })
  })

  test('says how much there is, without reading any of it', async () => {
    const shelf = createSoundShelf(name())
    expect(await shelf.size()).toEqual({ bytes: 0, runs: 0 })
    await shelf.put('run', new Map([[3, ONE]]))
    await shelf.put('run', new Map([[4, TWO]]))
    await shelf.put('other', new Map([[3, TWO]]))
    await shelf.put('silent', new Map())
    const read = vi.spyOn(IDBObjectStore.prototype, 'getAll')
    expect(await shelf.size()).toEqual({ bytes: 16, runs: 2 })
    expect(read.mock.contexts.map((store) => (store as IDBObjectStore).name)).toEqual(['sizes'])
  })

  test('gives out those of one run, and puts them back', async () => {
    const shelf = createSoundShelf(name())
    const sounds = new Map([
      [3, ONE],
      [4, TWO],
    ])
    await shelf.put('run', sounds)
    await shelf.put('run 2', new Map([[1, TWO]]))
    expect(await shelf.take('run')).toEqual(sounds)
    expect([await shelf.numbers('run'), await shelf.numbers('run 2')]).toEqual([[], [1]])
    expect(await shelf.size()).toEqual({ bytes: 4, runs: 1 })
    expect(await shelf.take('run')).toEqual(new Map())
    await shelf.put('run', sounds)
    expect(await shelf.take('run')).toEqual(sounds)
  })

  test('is empty after all was deleted', async () => {
    const shelf = createSoundShelf(name())
    await shelf.put('run', new Map([[3, ONE]]))
    await shelf.put('other', new Map([[3, ONE]]))
    await shelf.deleteAll()
    expect([await shelf.size(), await shelf.numbers('run')]).toEqual([{ bytes: 0, runs: 0 }, []])
  })

  test('says why it takes nothing, and keeps none of it by halves', async () => {
    const shelf = createSoundShelf(name())
    await shelf.put('run', new Map([[1, ONE]]))
    const put = IDBObjectStore.prototype.put
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      if (args[0] === TWO) throw new DOMException('no room', 'QuotaExceededError')
      return put.apply(this, args)
    })
    const both = new Map([
      [2, ONE],
      [3, TWO],
    ])
    await expect(shelf.put('run', both)).rejects.toThrow('The browser has no room left for the sound.')
    vi.restoreAllMocks()
    expect(await shelf.numbers('run')).toEqual([1])
    await shelf.put('run', both)
    expect(await shelf.numbers('run')).toEqual([1, 2, 3])
  })

  test('says that the browser stores nothing, and tries again the next time', async () => {
    const shelf = createSoundShelf(name())
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('not here', 'SecurityError')
    })
    await expect(shelf.size()).rejects.toThrow('The browser does not let this page store the sound')
    vi.restoreAllMocks()
    expect(await shelf.size()).toEqual({ bytes: 0, runs: 0 })
  })
})
