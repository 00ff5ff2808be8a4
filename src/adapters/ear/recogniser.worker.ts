/**
 * The thread around the recogniser. Two run side by side, each with one front end: the first hears
 * frames and speaks with the page, the second only looks at what the first hands it.
 */

import createModule from 'soundswallower'
import type { EarEvent, ListenOrder } from '../../ports.ts'
import type { Decoded } from './decoder.ts'
import { type Denoiser, loadDenoiser } from './denoise.ts'
import { parseDictionary } from './dictionary.ts'
import { Listening } from './listening.ts'
import type { CapturedFrame, FromPeer, FromWorker, ToPeer, ToWorker } from './messages.ts'
import { Look } from './recogniser.ts'

let look: Look | undefined
let denoiser: Denoiser | undefined
let listening: Listening | undefined
const FRAME_MS = 30

const say = (message: FromWorker) => self.postMessage(message)
const emit = (event: EarEvent) => say({ type: 'event', event })

self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  receive(data).catch((error: unknown) => say({ type: 'broken', message: shortened(error) }))
}

/** The library's errors carry its whole source line. */
const shortened = (error: unknown) => (error instanceof Error ? error.message : String(error)).slice(0, 200)

async function receive(message: ToWorker): Promise<void> {
  switch (message.type) {
    case 'load': {
      const module = await createModule({ print: () => {}, printErr: () => {} })
      look = await Look.create(module, message.files, message.frontEnd)
      if (message.frontEnd === 'plain') denoiser = (await loadDenoiser(await bytesOf(message.denoiser)))()
      return say({ type: 'loaded' })
    }
    case 'learn':
      return say({
        type: 'learned',
        missing: loaded(look).learn(message.vocabulary, parseDictionary(message.dictionary)),
      })
    case 'peer':
      if (denoiser) listening = joinPeer(message.port)
      else servePeer(message.port)
      return
    case 'frames':
      return hearFrames(message.port, message.clockOffsetMs)
    case 'listen':
      return listening?.listen(message.order, message.opensAt)
    case 'shut':
      return listening?.shut()
    case 'gate':
      return listening?.gate(message.gate, now())
    default:
      return message satisfies never
  }
}

/** A second look that takes longer than this never comes: its worker died without a word, and nothing more would be heard. */
const SECOND_LOOK_MS = 15_000

let clockOffset = 0
const now = () => Date.now() + clockOffset

async function bytesOf(address: string): Promise<ArrayBuffer> {
  const response = await fetch(address)
  if (!response.ok) throw new Error(`${address}: ${response.status}`)
  return response.arrayBuffer()
}

function loaded<T>(part: T | undefined): T {
  if (!part) throw new Error('used before it was loaded')
  return part
}

/** The first worker's line to the second. */
function joinPeer(port: MessagePort): Listening {
  const waiting = new Map<number, (decoded: Decoded) => void>()
  let id = 0
  let patience: ReturnType<typeof setTimeout> | undefined
  const waitOn = () => {
    clearTimeout(patience)
    if (waiting.size === 0) return
    patience = setTimeout(() => say({ type: 'broken', message: 'the second look is lost' }), SECOND_LOOK_MS)
  }
  port.onmessage = ({ data }: MessageEvent<FromPeer>) => {
    waiting.get(data.id)?.(data.decoded)
    waiting.delete(data.id)
    waitOn()
  }
  const tell = (message: ToPeer) => port.postMessage(message)
  const looks = {
    expect(order: ListenOrder) {
      say({ type: 'busy' })
      tell({ type: 'expect', hearable: order.hearable })
      loaded(look).expect(order.hearable)
    },
    first(pcm: Float32Array) {
      say({ type: 'busy' })
      return loaded(look).at(pcm)
    },
    second: (pcm: Float32Array) =>
      new Promise<Decoded>((resolve) => {
        waiting.set(++id, resolve)
        tell({ type: 'look', id, pcm })
        waitOn()
      }),
  }
  return new Listening({ looks, denoiser: loaded(denoiser), emit })
}

function servePeer(port: MessagePort): void {
  port.onmessage = ({ data }: MessageEvent<ToPeer>) => {
    if (data.type === 'expect') return loaded(look).expect(data.hearable)
    const answer: FromPeer = { id: data.id, decoded: loaded(look).at(data.pcm) }
    port.postMessage(answer)
  }
}

/**
 * Frames are dated where they are captured, for here they wait while something is looked at. They follow one another
 * without a gap, so one date serves them all.
 */
function hearFrames(port: MessagePort, clockOffsetMs: number): void {
  clockOffset = clockOffsetMs
  let begin = 0
  port.onmessage = ({ data }: MessageEvent<CapturedFrame>) => {
    const latest = data.endedAt + clockOffset - FRAME_MS
    const dated = begin + data.seq * FRAME_MS
    // The least delayed frame is right; a frame far off means that the stream had stopped for a while.
    if (begin === 0 || dated > latest || latest - dated > 500) begin = latest - data.seq * FRAME_MS
    listening?.frame(data.pcm, begin + data.seq * FRAME_MS)
  }
}
