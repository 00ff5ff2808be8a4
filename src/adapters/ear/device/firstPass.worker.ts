/**
 * The thread around the recogniser. Two run side by side, each with one front end: the first hears
 * frames and speaks with the page, the second only looks at what the first hands it.
 */

import createModule from 'soundswallower'
import type { EarEvent } from '../../../ports.ts'
import { type Denoiser, loadDenoiser } from '../audio/denoise.ts'
import { FrameDates } from '../audio/frameDates.ts'
import { Look } from '../recogniser/decodePass.ts'
import type { Decoded, FrontEnd } from '../recogniser/decoder.ts'
import { parseDictionary } from '../recogniser/dictionary.ts'
import { VoiceStudy } from '../recogniser/warpEstimator.ts'
import { WeighingLine } from '../rescorer/rescorerClient.ts'
import { Listening, type Looks } from '../utterance/listening.ts'
import { FURTHER } from '../utterance/recognition.ts'
import type { CapturedFrame, FromPeer, FromWorker, ToPeer, ToWorker } from './messages.ts'

let look: Look | undefined
/** Of the second look alone: the first has to hear frames. */
let study: VoiceStudy | undefined
/** Hands what was learned of the speaker to the page, which outlives this worker. */
let keepKnown = () => {}
let denoiser: Denoiser | undefined
/** Comes late, or never. */
let weigher: WeighingLine | undefined
let listening: Listening | undefined

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
      const { frontEnd, files, known } = message
      look = await Look.create(module, files, frontEnd, known)
      if (frontEnd === 'cleaned') study = new VoiceStudy(look, known?.tract)
      keepKnown = keeper(look, frontEnd)
      if (frontEnd === 'plain') denoiser = (await loadDenoiser(await bytesOf(message.denoiser)))()
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
    case 'weigher':
      weigher = new WeighingLine(message.port, () => emit({ type: 'weigher', state: 'failed' }))
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

function keeper(look: Look, frontEnd: FrontEnd): () => void {
  const knownNow = () => look.known && { ...look.known, ...(study && { tract: study.evidence }) }
  let told = knownNow()
  return () => {
    const known = knownNow()
    if (known && (known.mean !== told?.mean || known.tract !== told.tract)) say({ type: 'known', frontEnd, known })
    told = known
  }
}

/** Half of the time it rests, for whatever else the page does on a small machine. */
function studyInSteps(study: VoiceStudy, done: () => void): void {
  study.begin()
  const goOn = (rest: number) =>
    setTimeout(() => {
      const began = performance.now()
      if (study.step()) goOn(performance.now() - began)
      else done()
    }, rest)
  goOn(FIRST_REST_MS)
}
/** The voice has begun to speak by then. */
const FIRST_REST_MS = 200

function loaded<T>(part: T | undefined): T {
  if (!part) throw new Error('used before it was loaded')
  return part
}

/** The first worker's line to the second, which is always asked first: it works while this one is busy. */
function joinPeer(port: MessagePort): Listening {
  const waiting = new Map<number, (decoded: Decoded | undefined) => void>()
  let id = 0
  let patience: ReturnType<typeof setTimeout> | undefined
  const waitOn = () => {
    clearTimeout(patience)
    if (waiting.size === 0) return
    patience = setTimeout(() => say({ type: 'broken', message: 'the second look is lost' }), SECOND_LOOK_MS)
  }
  port.onmessage = ({ data }: MessageEvent<FromPeer>) => {
    if (data.type === 'suit') return loaded(look).suit(data.scale)
    waiting.get(data.id)?.(data.decoded)
    waiting.delete(data.id)
    waitOn()
  }
  const tell = (message: ToPeer) => port.postMessage(message)
  const ask = (message: (id: number) => ToPeer) =>
    new Promise<Decoded | undefined>((resolve) => {
      waiting.set(++id, resolve)
      tell(message(id))
      waitOn()
    })
  const looks: Looks = {
    expect(order) {
      say({ type: 'busy' })
      tell({ type: 'expect', hearable: order.hearable })
      loaded(look).expect(order.hearable)
    },
    begin(pcm) {
      tell({ type: 'begin', pcm })
      loaded(look).begin(pcm)
    },
    push(pcm) {
      tell({ type: 'push', pcm })
      loaded(look).push(pcm)
    },
    end() {
      say({ type: 'busy' })
      const second = ask((id) => ({ type: 'end', id }))
      const first = loaded(look).end()
      keepKnown()
      return { first, second }
    },
    at(pcm) {
      say({ type: 'busy' })
      const second = ask((id) => ({ type: 'look', id, pcm })).then(loaded)
      const first = loaded(look).at(pcm)
      keepKnown()
      return { first, second }
    },
    furtherAt(pcm) {
      say({ type: 'busy' })
      const second = ask((id) => ({ type: 'furtherLook', id, pcm })).then(loaded)
      return { first: loaded(look).by(FURTHER[0], pcm), second }
    },
    weighing: (pcm) => weigher?.weighing(pcm, loaded(look).grammar),
    understood: () => tell({ type: 'understood' }),
  }
  return new Listening({ looks, denoiser: loaded(denoiser), emit })
}

function servePeer(port: MessagePort): void {
  const tell = (message: FromPeer) => port.postMessage(message)
  const answer = (id: number, decoded: Decoded | undefined) => {
    tell({ type: 'looked', id, decoded })
    keepKnown()
  }
  const suit = ({ scale }: VoiceStudy) => tell({ type: 'suit', scale })
  suit(loaded(study))
  port.onmessage = ({ data }: MessageEvent<ToPeer>) => {
    const own = loaded(look)
    switch (data.type) {
      case 'expect':
        return own.expect(data.hearable)
      case 'begin':
        return own.begin(data.pcm)
      case 'push':
        return own.push(data.pcm)
      case 'end':
        return answer(data.id, own.end())
      case 'look':
        return answer(data.id, own.at(data.pcm))
      case 'furtherLook':
        return answer(data.id, own.by(FURTHER[1], data.pcm))
      case 'understood':
        return studyInSteps(loaded(study), () => {
          suit(loaded(study))
          keepKnown()
        })
      default:
        return data satisfies never
    }
  }
}

/** Frames are dated where they are captured, for here they wait while something is looked at. */
function hearFrames(port: MessagePort, clockOffsetMs: number): void {
  clockOffset = clockOffsetMs
  const dates = new FrameDates()
  port.onmessage = ({ data: { pcm, seq, endedAt } }: MessageEvent<CapturedFrame>) => {
    listening?.frame(pcm, dates.date(seq, endedAt + clockOffset))
  }
}
