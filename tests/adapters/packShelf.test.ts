import 'fake-indexeddb/auto'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { createPackShelf } from '../../src/adapters/packShelf.ts'
import type { OwnPack } from '../../src/ports.ts'

let count = 0
const name = () => `packs ${++count}`
const WREN: OwnPack = { key: 'one', files: { 'pack.yaml': '\ufeffid: wren\r\n' }, label: 'Wren', changedAt: 1 }

afterEach(() => vi.restoreAllMocks())

describe('packs of the person’s own', () => {
  test('are kept to the letter, changed and taken away', async () => {
    const shelf = createPackShelf(name())
    await shelf.change('one', () => WREN)
    expect(await shelf.all()).toEqual([WREN])
    await shelf.change('one', (there) => there && { ...there, label: 'Home wren' })
    expect(await shelf.all()).toEqual([{ ...WREN, label: 'Home wren' }])
    await shelf.change('one', () => undefined)
    expect(await shelf.all()).toEqual([])
  })

  test('are the same in two tabs, neither of which writes over what the other has just written', async () => {
    const both = name()
    const [here, there] = [createPackShelf(both), createPackShelf(both)]
    await here.change('one', () => WREN)
    const add = (letter: string) => (pack: OwnPack | undefined) => pack && { ...pack, label: pack.label + letter }
    await Promise.all(
      ['a', 'b', 'c', 'd'].map((letter, index) => (index % 2 ? here : there).change('one', add(letter))),
    )
    const [pack] = await here.all()
    expect([...(pack?.label ?? '')].toSorted().join('')).toBe([...'Wrenabcd'].toSorted().join(''))
  })

  test('tell the other tab of a change, and not of what changed nothing', async () => {
    const both = name()
    const [here, there] = [createPackShelf(both), createPackShelf(both)]
    const heard = vi.fn()
    const told = new Promise<void>((resolve) => {
      there.subscribe(() => {
        heard()
        resolve()
      })
    })
    await here.change('one', (pack) => pack)
    await here.change('one', () => WREN)
    await told
    expect(heard).toHaveBeenCalledTimes(1)
  })

  test('that cannot be stored are refused in words', async () => {
    const full = createPackShelf(name())
    await full.all()
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no', 'QuotaExceededError')
    })
    await expect(full.change('one', () => WREN)).rejects.toThrow(/^The browser has no room left for your packs\./)
    expect(await full.all()).toEqual([])
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError')
    })
    await expect(createPackShelf(name()).all()).rejects.toThrow(/does not let this page store your packs \(a private/)
  })
})
