/** Papers and pad that lie open outlast a reload of the page, in their tab. */

import { describe, expect, it } from 'vitest'
import { keepTable, readTable } from '../../src/app/papers/openOnTable.ts'
import { createAppStore } from '../../src/app/store.ts'

function tabStorage(kept: Record<string, string> = {}) {
  return {
    getItem: (key: string) => kept[key] ?? null,
    setItem(key: string, value: string) {
      kept[key] = value
    },
  }
}

describe('what lies open on the table', () => {
  it('is there again when the page is opened anew, the last one opened first', () => {
    const tab = tabStorage()
    const store = createAppStore(readTable(tab))
    keepTable(store, tab)
    store.setState({ openPapers: ['trimCard', 'loadSheet 1'], hasPad: true })
    expect(createAppStore(readTable(tab)).getState()).toMatchObject({
      openPapers: ['trimCard', 'loadSheet 1'],
      hasPad: true,
    })
    store.setState({ openPapers: [], hasPad: false })
    expect(readTable(tab)).toEqual({ openPapers: [], hasPad: false })
  })

  it.each(['', 'null', '{"openPapers":[1,{}],"hasPad":"yes"}', 'broken'])('is nothing where %j was kept', (text) => {
    const { openPapers, hasPad } = createAppStore(readTable(tabStorage({ 'otherseat.table': text }))).getState()
    expect({ openPapers, hasPad }).toEqual({ openPapers: [], hasPad: false })
  })

  it('does without a storage that refuses', () => {
    const refuses = () => {
      throw new Error('refused')
    }
    const tab = { getItem: refuses, setItem: refuses }
    const store = createAppStore(readTable(tab))
    keepTable(store, tab)
    store.setState({ hasPad: true })
    expect(store.getState().hasPad).toBe(true)
  })
})
