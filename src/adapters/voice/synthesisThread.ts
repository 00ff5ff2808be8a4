/** Starts the thread of a role's synthesised voice. */

import { type ProxyMarked, type Remote, transfer } from 'comlink'
import type { Role } from '../../kernel/pack/roles.ts'
import { loadThread } from '../threads.ts'
import { fetchSynthesiser } from './recording.ts'
import type { SynthesisThread } from './synthesis.ts'

/** What the thread answers. */
export interface SynthesisWorker {
  load(wasm: ArrayBuffer): Promise<Sayer & ProxyMarked>
}
interface Sayer {
  say(sentence: string): Float32Array<ArrayBuffer>
}

/** The file is there by then; a synthesiser that takes longer to start never will. */
const LOAD_MS = 30_000

/** Rejects where the synthesiser cannot be fetched or loaded. */
export async function startSynthesis(role: Role): Promise<SynthesisThread> {
  const wasm = await fetchSynthesiser(role)
  const worker = new Worker(new URL('./synthesis.worker.ts', import.meta.url), { type: 'module', name: 'synthesis' })
  const load = (calls: Remote<SynthesisWorker>) => calls.load(transfer(wasm, [wasm]))
  const sayer = await loadThread(worker, load, LOAD_MS)
  return { say: (sentence) => sayer.say(sentence), end: () => worker.terminate() }
}
