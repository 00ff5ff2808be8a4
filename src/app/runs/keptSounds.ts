/**
 * The sound of what was said, kept beside the log. Whatever goes wrong with it is told in a line and stops no run: the log
 * is whole without it.
 */

import type { RunEvent } from '../../kernel/run/core/events.ts'
import { firstOfBreath } from '../../kernel/run/debrief/breaths.ts'
import type { RunSounds, SoundShelf } from '../../ports.ts'
import { allSounds } from '../sound/allSounds.ts'
import type { Store } from '../store.ts'
import type { SoundsState } from './soundsState.ts'

export interface KeptSounds {
  keep(event: RunEvent, samples: Int16Array): Promise<void>
  /** Shows which words of a run can be heard. */
  lookUp(runId: string, events: readonly RunEvent[]): Promise<void>
  /** Of a run; undefined where it cannot be read. */
  all(runId: string): Promise<RunSounds | undefined>
  /** A run is deleted, and its sound with it, until it is brought back; why that could not be done, empty where it could. */
  take(runId: string): Promise<string>
  bringBack(runId: string): Promise<string>
  /** The run that was deleted will not come back. */
  forget(): void
  showSize(): Promise<void>
  /** What a deleted run had as well. */
  deleteAll(): Promise<void>
}

export function createKeptSounds(store: Store, shelf: SoundShelf): KeptSounds {
  let taken: { readonly runId: string; readonly sounds: RunSounds } | undefined

  const show = (change: Partial<SoundsState>) => store.setState(({ sounds }) => ({ sounds: { ...sounds, ...change } }))

  /** Empty where it was done; else what could not be, and why. */
  async function tried(work: () => Promise<void>, what: string): Promise<string> {
    try {
      await work()
      return ''
    } catch (error) {
      return `${what}: ${error instanceof Error ? error.message : String(error)}`
    }
  }

  const showSize = () => tried(async () => show({ size: await shelf.size() }), 'What is kept cannot be looked up')

  return {
    async showSize() {
      show({ wrong: await showSize() })
    },
    async keep({ runId, seq }, samples) {
      const put = () => shelf.put(runId, new Map([[seq, samples]]))
      const notKept = await tried(put, 'The sound of what you say is not kept')
      if (notKept !== store.getState().sounds.notKept) show({ notKept })
    },
    async lookUp(runId, events) {
      show({ there: new Map(), playing: undefined, wrong: '' })
      const numbers = new Set(await shelf.numbers(runId).catch(() => []))
      // Another debrief may have been opened meanwhile.
      if (numbers.size === 0 || store.getState().debrief?.runId !== runId) return
      show({ there: new Map([...firstOfBreath(events)].filter(([, first]) => numbers.has(first))) })
    },
    all: (runId) => allSounds(shelf, runId),
    take: (runId) =>
      tried(async () => {
        taken = undefined
        taken = { runId, sounds: await shelf.take(runId) }
      }, 'The sound of the deleted run is still there'),
    async bringBack(runId) {
      if (taken?.runId !== runId) return ''
      const { sounds } = taken
      taken = undefined
      return sounds.size === 0 ? '' : tried(() => shelf.put(runId, sounds), 'The sound of the run did not come back')
    },
    forget() {
      taken = undefined
    },
    async deleteAll() {
      taken = undefined
      const wrong = await tried(shelf.deleteAll, 'The sound could not be deleted')
      show({ wrong, ...(wrong === '' && { there: new Map(), playing: undefined }) })
      await showSize()
    },
  }
}
