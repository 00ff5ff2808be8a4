import { describe, expect, it, vi } from 'vitest'
import type { Actions } from '../../src/app/actions/actions.ts'
import { lazyActions } from '../../src/app/actions/lazyActions.ts'

const loading = () => {
  const done: string[] = []
  const actions = {
    choosePack: async (text: string) => void done.push(text),
    show: (screen: string) => void done.push(screen),
  }
  let arrive: () => void = () => undefined
  const loaded = new Promise<Actions>((resolve) => {
    arrive = () => resolve(actions as unknown as Actions)
  })
  return { done, arrive, lazy: lazyActions(loaded) }
}

describe('actions whose code is still loading', () => {
  it('are done in their order once it is there', async () => {
    const { done, arrive, lazy } = loading()
    const typed = lazy.choosePack('marram')
    lazy.show('figures')
    expect(done).toEqual([])
    arrive()
    await typed
    await vi.waitFor(() => expect(done).toEqual(['marram', 'figures']))
  })

  it('are done at once from then on', async () => {
    const { done, arrive, lazy } = loading()
    arrive()
    await lazy.choosePack('marram')
    lazy.show('run')
    expect(done).toEqual(['marram', 'run'])
  })
})
