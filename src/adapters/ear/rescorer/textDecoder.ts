/** The second model's text decoder: its inputs by name, its cache, and what its outputs mean. */

import { type InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import type { NextLogProb, Row } from './beam.ts'

/** The model's own: its layers, heads and their width. */
const [LAYERS, HEADS, WIDTH] = [6, 8, 36]

/** An empty cache, for the first call. */
export const EMPTY_CACHE = Object.fromEntries(
  Array.from({ length: LAYERS }, (_, layer) =>
    ['decoder', 'encoder'].flatMap((side) =>
      ['key', 'value'].map((part) => [
        `past_key_values.${layer}.${side}.${part}`,
        new Tensor('float32', new Float32Array(0), [0, HEADS, 1, WIDTH]),
      ]),
    ),
  ).flat(),
)

/** Tokens this far below the likeliest add nothing to the sum, in nats. */
const NEGLIGIBLE = 20

/** From the raw outputs at one place to each token's log probability. */
export function logSoftmax(outputs: Float32Array): NextLogProb {
  let top = Number.NEGATIVE_INFINITY
  for (const value of outputs) if (value > top) top = value
  let sum = 0
  for (const value of outputs) if (value > top - NEGLIGIBLE) sum += Math.exp(value - top)
  const all = top + Math.log(sum)
  return (token) => (outputs[token] ?? Number.NEGATIVE_INFINITY) - all
}

type Tensors = Readonly<Record<string, Tensor>>

/** Decodes one token at a time in several rows, each of which continues one of the previous rows. */
export class StepDecoder {
  private readonly decoder: InferenceSession
  /** The encoded sound and the decoder's cache of it: these never change. */
  private readonly sound: ByRows
  private soundCache: ByRows | undefined
  private textCache: Tensors = {}

  constructor(decoder: InferenceSession, sound: Tensor) {
    this.decoder = decoder
    this.sound = new ByRows({ encoder_hidden_states: sound })
  }

  async step(rows: readonly Row[]): Promise<readonly NextLogProb[]> {
    const tokens = BigInt64Array.from(rows, ({ token }) => BigInt(token))
    const from = rows.map((row) => row.from)
    const outputs = await this.decoder.run({
      ...(this.soundCache ? { ...this.soundCache.of(rows.length), ...picked(this.textCache, from) } : EMPTY_CACHE),
      ...this.sound.of(rows.length),
      input_ids: new Tensor('int64', tokens, [rows.length, 1]),
      use_cache_branch: new Tensor('bool', [this.soundCache !== undefined], [1]),
    })
    this.textCache = cacheOf(outputs, 'decoder')
    this.soundCache ??= new ByRows(cacheOf(outputs, 'encoder'))
    const { logits } = outputs
    if (!logits) throw new Error('the second model gave no output')
    const all = logits.data as Float32Array
    const size = all.length / rows.length
    return rows.map((_, row) => logSoftmax(all.subarray(row * size, (row + 1) * size)))
  }
}

/** Tensors of one row, repeated for any number of rows. */
export class ByRows {
  private readonly one: Tensors
  private readonly made = new Map<number, Tensors>()

  constructor(one: Tensors) {
    this.one = one
  }

  of(rows: number): Tensors {
    const made = this.made.get(rows) ?? picked(this.one, new Array<number>(rows).fill(0))
    this.made.set(rows, made)
    return made
  }
}

/** One side of the cache, as the next call takes it. */
function cacheOf(outputs: Tensors, side: 'decoder' | 'encoder'): Tensors {
  return Object.fromEntries(
    Object.entries(outputs)
      .filter(([name]) => name.startsWith('present') && name.includes(side))
      .map(([name, tensor]) => [name.replace('present', 'past_key_values'), tensor]),
  )
}

const picked = (tensors: Tensors, rows: readonly number[]): Tensors =>
  Object.fromEntries(Object.entries(tensors).map(([name, tensor]) => [name, rowsOf(tensor, rows)]))

/** These rows of a tensor, in this order. */
function rowsOf(tensor: Tensor, rows: readonly number[]): Tensor {
  const data = tensor.data as Float32Array
  const [count = 1, ...dims] = tensor.dims
  const size = data.length / count
  const all = new Float32Array(rows.length * size)
  rows.forEach((row, at) => {
    all.set(data.subarray(row * size, (row + 1) * size), at * size)
  })
  return new Tensor('float32', all, [rows.length, ...dims])
}
