/** The synthesiser flite with one voice, as `npm run synthesiser` compiles it; for a thread of its own. */

import { levelled, RATE, trimmed } from './speechSound.ts'

export interface Flite {
  /** Samples at `RATE`, at the loudness of the clips. Throws where the text cannot be said. */
  say(text: string): Float32Array<ArrayBuffer>
  /** It has taken so much; it never gives any back. */
  memoryBytes(): number
}

/** What `say.c` exports; places are in its memory. */
interface Exports {
  readonly memory: WebAssembly.Memory
  malloc(bytes: number): number
  say(text: number): number
  samples(): number
  rate(): number
  _initialize(): void
}

/** As WASI numbers it. */
const BAD_FILE = 8

export async function createFlite(wasm: BufferSource): Promise<Flite> {
  const module = await WebAssembly.compile(wasm)
  const flite = (await WebAssembly.instantiate(module, world(module))).exports as unknown as Exports
  flite._initialize()
  return {
    memoryBytes: () => flite.memory.buffer.byteLength,
    say(text) {
      const bytes = new TextEncoder().encode(`${asLetter(plainLetters(text))}\0`)
      const place = flite.malloc(bytes.length)
      new Uint8Array(flite.memory.buffer).set(bytes, place)
      const length = flite.say(place)
      if (length === 0) throw new Error('nothing was spoken')
      if (flite.rate() !== RATE) throw new Error(`flite speaks at ${flite.rate()} Hz; ${RATE} would be right`)
      const samples = new Int16Array(flite.memory.buffer, flite.samples(), length)
      return levelled(trimmed(Float32Array.from(samples, (sample) => sample / 32_768)))
    },
  }
}

/**
 * It reads English letters only, and passes over all others: accents are taken off ("Malmö" is said "Malmo"), and a word in
 * another script throws, for without it the sentence may say something else.
 */
function plainLetters(text: string): string {
  const plain = text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/(?![ -~])\p{P}/gu, ' ')
  const unread = plain.match(/[^ -~]/u)
  if (unread) throw new Error(`flite has no sound for ${unread[0]}`)
  return plain
}

/** Before another letter flite takes "a" for the article: "A P U" would begin like "a pen". */
export const asLetter = (text: string) => text.replace(/\ba(?= [a-z]\b)/gi, 'ay')

/** It needs nothing of the world: it is told when its memory grows, cannot write its complaints, and all else is its end. */
function world(module: WebAssembly.Module): WebAssembly.Imports {
  const imports: Record<string, Record<string, (...values: number[]) => number>> = {}
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    imports[from] ??= {}
    imports[from][name] = KNOWN[name] ?? end(name)
  }
  return imports
}

const KNOWN: Readonly<Record<string, () => number>> = {
  emscripten_notify_memory_growth: () => 0,
  setTempRet0: () => 0,
  fd_write: () => BAD_FILE,
}

const end = (name: string) => () => {
  throw new Error(`flite has failed: ${name}`)
}
