/** The two threads of the ear: started, loaded and joined, or not at all. */

import { proxy, type Remote, transfer } from 'comlink'
import type { EarEvent } from '../../../ports.ts'
import { loadThread } from '../../threads.ts'
import { FIRST_PASS, type PassFrontEnds, SECOND_PASS } from '../recogniser/frontEnds.ts'
import type { Model } from './modelFiles.ts'
import type { FirstPassCalls, FirstPassWorker, PageCalls, PassModel, SecondPassWorker } from './passCalls.ts'
import type { StoredProfiles } from './storedProfiles.ts'

/** What the ear is asked; a rejection means that its thread is broken. */
export type PassThreads = {
  readonly [Name in keyof FirstPassCalls]: (...args: Parameters<FirstPassCalls[Name]>) => Promise<void>
} & { end(): void }

export interface PassThreadParts {
  readonly model: Model
  readonly profiles: StoredProfiles
  readonly event: (event: EarEvent) => void
  /** Nothing will come for a while: a long answer is being decoded. */
  readonly busy: () => void
  /** Called once, where a thread failed; nothing else is called afterwards, nor after `end`. */
  readonly broken: () => void
}

/** A model that takes longer than this to load never will. */
const LOAD_MS = 30_000

/** Rejects where a thread cannot load. */
export async function startPasses({ model, profiles, event, busy, broken }: PassThreadParts): Promise<PassThreads> {
  const first = new Worker(new URL('./firstPass.worker.ts', import.meta.url), { type: 'module' })
  const second = new Worker(new URL('./secondPass.worker.ts', import.meta.url), { type: 'module' })
  const over = new AbortController()
  const end = () => {
    over.abort()
    first.terminate()
    second.terminate()
  }
  const unlessOver = (call: () => void) => {
    if (!over.signal.aborted) call()
  }
  const breakDown = () =>
    unlessOver(() => {
      over.abort()
      broken()
    })
  const page: PageCalls = {
    event: (one) => unlessOver(() => event(one)),
    busy: () => unlessOver(busy),
    profile: (frontEnd, profile) => profiles.set(frontEnd, profile),
    broken: breakDown,
  }
  const { files, denoiser } = model
  const passModel = ({ usual }: PassFrontEnds): PassModel => {
    const profile = profiles.get(usual)
    return { files, denoiser, ...(profile && { profile }) }
  }
  const { port1, port2 } = new MessageChannel()
  const loadFirst = (worker: Remote<FirstPassWorker>) =>
    worker.load(passModel(FIRST_PASS), transfer(port1, [port1]), proxy(page))
  const loadSecond = (worker: Remote<SecondPassWorker>) =>
    worker.load(passModel(SECOND_PASS), transfer(port2, [port2]), proxy(page))
  try {
    const [calls] = await Promise.all([loadThread(first, loadFirst, LOAD_MS), loadThread(second, loadSecond, LOAD_MS)])
    for (const worker of [first, second]) worker.addEventListener('error', breakDown)
    return {
      learn: (vocabulary, dictionary) => calls.learn(vocabulary, dictionary),
      hearFrames: (frames, clockOffsetMs) => calls.hearFrames(transfer(frames, [frames]), clockOffsetMs),
      connectRescorer: (port) => calls.connectRescorer(transfer(port, [port])),
      listen: (request, opensAt) => calls.listen(request, opensAt),
      shut: () => calls.shut(),
      gate: (gate) => calls.gate(gate),
      end,
    }
  } catch (error) {
    end()
    throw error
  }
}
