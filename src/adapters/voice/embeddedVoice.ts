/**
 * A voice of our own, where the browser has none: recorded clips in one file, joined to sentences, and sentences
 * synthesised whole where a word has no clip. It ends exactly when the last piece has ended, and never says a sentence
 * with a word left out. Each of those it speaks for has one.
 */

import type { RadioNoise } from '../../kernel/run/core/events.ts'
import type { Clock, VoicedFor } from '../../ports.ts'
import type { Speaker } from './browserVoice.ts'
import { type Clip, type ClipIndex, PAUSE_MS, sentencesOf } from './clips.ts'
import { KEY_MS, openChannel } from './radioChannel.ts'
import type { Sound } from './sound.ts'
import { soundedAt } from './soundedAt.ts'
import { RATE } from './speechSound.ts'
import type { Synthesis } from './synthesis.ts'
import { type Outcome, utter } from './utterance.ts'

export interface Recording {
  readonly clips: ClipIndex
  /** Where the mark stands in the recording as rendered; decoders put more or less silence before it. */
  readonly markMs: number
}

export interface EmbeddedVoiceParts {
  readonly clock: Clock
  readonly sound: Sound
  /** Faster is higher as well: the recording is played faster. */
  readonly rate: () => number
  /** The noise of the radio that it sounds as if on; undefined where on none. */
  readonly onRadio?: () => RadioNoise | undefined
  /** Fetches the recording and where its clips are. */
  readonly load: () => Promise<{ readonly recording: Recording; readonly bytes: ArrayBuffer }>
  /** The same speaker, for what has no clips. */
  readonly synthesis: Synthesis
}

export interface EmbeddedSpeaker extends Speaker {
  /** Loads the recording ahead of the first word, and what it will take to say these texts. */
  prepare(texts: readonly string[]): Promise<void>
}

interface Loaded {
  readonly clips: ClipIndex
  readonly buffer: AudioBuffer
  /** To be added to every place in the recording. */
  readonly shiftMs: number
}

/** What sounds between two pauses: a clip of the recording, or a sentence. */
interface Piece extends Clip {
  readonly buffer: AudioBuffer
}

const MARK_LEVEL = 0.1
const LATE_MS = 2_000

export function createEmbeddedVoice(parts: EmbeddedVoiceParts): EmbeddedSpeaker {
  let loading: Promise<Loaded> | undefined
  let endedAt: number | undefined

  function loaded(): Promise<Loaded> {
    loading ??= parts.load().then(({ recording, bytes }) => decode(recording, bytes))
    // What failed to load, for want of a network, may load the next time.
    loading.catch(() => {
      loading = undefined
    })
    return loading
  }

  async function speak(text: string, _who: VoicedFor, signal?: AbortSignal): Promise<Outcome> {
    try {
      const [voice, context] = await Promise.all([loaded(), parts.sound.running()])
      if (signal?.aborted) return 'cancelled'
      if (!context) return 'failed'
      const pieces = await piecesOf(voice, text)
      if (signal?.aborted) return 'cancelled'
      return pieces.length > 0 ? await play(context, pieces, signal) : 'failed'
    } catch {
      return 'failed'
    }
  }

  async function piecesOf({ clips, buffer, shiftMs }: Loaded, text: string): Promise<readonly Piece[]> {
    const pieces = sentencesOf(text, clips).map(async (sentence) =>
      typeof sentence === 'string'
        ? [pieceOf(await parts.synthesis.say(sentence))]
        : sentence.map((clip) => ({ ...clip, buffer, beginMs: Math.max(0, clip.beginMs + shiftMs) })),
    )
    return (await Promise.all(pieces)).flat()
  }

  async function play(
    context: AudioContext,
    pieces: readonly Piece[],
    signal: AbortSignal | undefined,
  ): Promise<Outcome> {
    const { sources, lengthMs, endsAt } = schedule(context, pieces, parts)
    const { clock } = parts
    const outcome = await utter({
      ...{ clock, signal, withinMs: lengthMs + LATE_MS },
      begin(end) {
        const last = sources.at(-1)
        if (last) last.onended = () => end('spoken')
      },
      silence() {
        for (const source of sources) source.stop()
      },
    })
    endedAt = outcome === 'spoken' ? soundedAt(context, endsAt, clock) : undefined
    return outcome
  }

  async function prepare(texts: readonly string[]): Promise<void> {
    try {
      const { clips } = await loaded()
      if (texts.some((text) => sentencesOf(text, clips).some((sentence) => typeof sentence === 'string'))) {
        parts.synthesis.prepare()
      }
    } catch {
      // Who speaks tries again.
    }
  }

  return { speak, endedAt: () => endedAt, prepare }
}

/** A whole sentence. */
function pieceOf(samples: Float32Array<ArrayBuffer>): Piece {
  const buffer = new AudioBuffer({ length: samples.length, sampleRate: RATE })
  buffer.copyToChannel(samples, 0)
  return { buffer, beginMs: 0, lengthMs: buffer.duration * 1000, pauseMs: PAUSE_MS.sentence }
}

/** Starts everything that is to sound; the last of the sources ends last. */
function schedule(context: AudioContext, pieces: readonly Piece[], parts: EmbeddedVoiceParts) {
  const rate = parts.rate()
  const wholeMs = pieces.reduce((sum, { lengthMs, pauseMs }) => sum + (lengthMs + pauseMs) / rate, 0)
  const noise = parts.onRadio?.()
  const voiceMs = wholeMs - (pieces.at(-1)?.pauseMs ?? 0) / rate
  const channel = noise === undefined ? undefined : openChannel(context, voiceMs, noise)
  let atMs = channel ? KEY_MS : 20
  let endsAt = 0
  const sources = pieces.map(({ buffer, beginMs, lengthMs, pauseMs }) => {
    const source = new AudioBufferSourceNode(context, { buffer, playbackRate: rate })
    source.connect(channel?.input ?? context.destination)
    source.start(context.currentTime + atMs / 1000, beginMs / 1000, lengthMs / 1000)
    endsAt = context.currentTime + (atMs + lengthMs / rate) / 1000
    atMs += (lengthMs + pauseMs) / rate
    return source
  })
  // On a radio the key is released after the last word.
  if (channel) endsAt += KEY_MS / 1000
  return { sources: [...sources, ...(channel?.sources ?? [])], lengthMs: atMs, endsAt }
}

/** At the recording's own rate: decoding at the output's would take three times the memory. */
async function decode({ clips, markMs }: Recording, bytes: ArrayBuffer): Promise<Loaded> {
  const buffer = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(bytes)
  const mark = buffer.getChannelData(0).findIndex((sample) => Math.abs(sample) > MARK_LEVEL)
  if (mark < 0) throw new Error('the recording of the voice is silent')
  return { clips, buffer, shiftMs: (mark / RATE) * 1000 - markMs }
}
