/** The weigher's decoder as its file has it: its inputs by name, its cache, and what its outputs mean. */

import { type InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import type { NextPiece, Row } from './beam.ts'

/** The model's own: its layers, heads and their width. */
const [LAYERS, HEADS, WIDTH] = [6, 8, 36]

/** What it knows of earlier pieces and of the sound before the first call. */
export const NOTHING_BEFORE = Object.fromEntries(
  Array.from({ length: LAYERS }, (_, layer) =>
    ['decoder', 'encoder'].flatMap((side) =>
      ['key', 'value'].map((part) => [
        `past_key_values.${layer}.${side}.${part}`,
        new Tensor('float32', new Float32Array(0), [0, HEADS, 1, WIDTH]),
      ]),
    ),
  ).flat(),
)

/** Less than this beside the likeliest piece adds nothing that is seen, in nats. */
const NEGLIGIBLE = 20

/** Of the raw outputs for one place: natural logarithm of each piece's probability. */
export function logProbabilities(outputs: Float32Array): NextPiece {
  let top = Number.NEGATIVE_INFINITY
  for (const value of outputs) if (value > top) top = value
  let sum = 0
  for (const value of outputs) if (value > top - NEGLIGIBLE) sum += Math.exp(value - top)
  const all = top + Math.log(sum)
  return (piece) => (outputs[piece] ?? Number.NEGATIVE_INFINITY) - all
}

type Tensors = Readonly<Record<string, Tensor>>

/** Decodes a piece at a time in several rows, each of which goes on from one of the rows before. */
export class Decoding {
  private readonly decoder: InferenceSession
  /** What never changes, by the number of rows. */
  private readonly sounds: ByRows
  private heard: ByRows | undefined
  private said: Tensors = {}

  constructor(decoder: InferenceSession, sound: Tensor) {
    this.decoder = decoder
    this.sounds = new ByRows({ encoder_hidden_states: sound })
  }

  async go(rows: readonly Row[]): Promise<readonly NextPiece[]> {
    const pieces = BigInt64Array.from(rows, ({ piece }) => BigInt(piece))
    const from = rows.map((row) => row.from)
    const outputs = await this.decoder.run({
      ...(this.heard ? { ...this.heard.of(rows.length), ...picked(this.said, from) } : NOTHING_BEFORE),
      ...this.sounds.of(rows.length),
      input_ids: new Tensor('int64', pieces, [rows.length, 1]),
      use_cache_branch: new Tensor('bool', [this.heard !== undefined], [1]),
    })
    this.said = cacheOf(outputs, 'decoder')
    this.heard ??= new ByRows(cacheOf(outputs, 'encoder'))
    const { logits } = outputs
    if (!logits) throw new Error('the weigher said nothing')
    const all = logits.data as Float32Array
    const size = all.length / rows.length
    return rows.map((_, row) => logProbabilities(all.subarray(row * size, (row + 1) * size)))
  }
}

/** Tensors of one row, the same in each of several. */
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

/** One side of the cache as it goes in again. */
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
