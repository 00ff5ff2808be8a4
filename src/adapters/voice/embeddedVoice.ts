/**
 * A voice of our own, where the browser has none: recorded clips in one file, joined to sentences. It
 * ends exactly when the last clip has ended, and never says a sentence with a word left out. Each role has one.
 */

import type { Role } from '../../kernel/pack/roles.ts'
import type { Clock } from '../../ports.ts'
import type { Speaker } from './browserVoice.ts'
import { type Clip, type ClipIndex, clipsFor } from './clips.ts'
import { KEY_MS, openChannel } from './radioChannel.ts'
import type { Sound } from './sound.ts'
import { soundedAt } from './soundedAt.ts'
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
  /** Whether it sounds as on a radio. */
  readonly onRadio?: () => boolean
  /** Fetches the recording and where its clips are. */
  readonly load: () => Promise<{ readonly recording: Recording; readonly bytes: ArrayBuffer }>
}

export interface EmbeddedSpeaker extends Speaker {
  /** Loads the recording ahead of the first word. */
  prepare(): Promise<void>
}

interface Loaded {
  readonly clips: ClipIndex
  readonly buffer: AudioBuffer
  /** To be added to every place in the recording. */
  readonly shiftMs: number
}

/** The rate of the recording: decoding at the output's rate would take three times the memory. */
const RATE = 16_000
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

  async function speak(text: string, _role: Role, signal?: AbortSignal): Promise<Outcome> {
    try {
      const [voice, context] = await Promise.all([loaded(), parts.sound.running()])
      if (signal?.aborted) return 'cancelled'
      const clips = clipsFor(text, voice.clips)
      return clips && context ? await play(context, voice, clips, signal) : 'failed'
    } catch {
      return 'failed'
    }
  }

  async function play(
    context: AudioContext,
    voice: Loaded,
    clips: readonly Clip[],
    signal: AbortSignal | undefined,
  ): Promise<Outcome> {
    const { sources, lengthMs, endsAt } = schedule(context, voice, clips, parts)
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

  return { speak, endedAt: () => endedAt, prepare: () => loaded().then(ignore, ignore) }
}

const ignore = () => undefined

/** Starts everything that is to sound; the last of the sources ends last. */
function schedule(context: AudioContext, voice: Loaded, clips: readonly Clip[], parts: EmbeddedVoiceParts) {
  const rate = parts.rate()
  const wholeMs = clips.reduce((sum, { lengthMs, pauseMs }) => sum + (lengthMs + pauseMs) / rate, 0)
  const channel = parts.onRadio?.() ? openChannel(context, wholeMs - (clips.at(-1)?.pauseMs ?? 0) / rate) : undefined
  let atMs = channel ? KEY_MS : 20
  let endsAt = 0
  const sources = clips.map(({ beginMs, lengthMs, pauseMs }) => {
    const source = new AudioBufferSourceNode(context, { buffer: voice.buffer, playbackRate: rate })
    source.connect(channel?.input ?? context.destination)
    source.start(context.currentTime + atMs / 1000, Math.max(0, beginMs + voice.shiftMs) / 1000, lengthMs / 1000)
    endsAt = context.currentTime + (atMs + lengthMs / rate) / 1000
    atMs += (lengthMs + pauseMs) / rate
    return source
  })
  // On a radio the key is released after the last word.
  if (channel) endsAt += KEY_MS / 1000
  return { sources: [...sources, ...(channel?.sources ?? [])], lengthMs: atMs, endsAt }
}

async function decode({ clips, markMs }: Recording, bytes: ArrayBuffer): Promise<Loaded> {
  const buffer = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(bytes)
  const mark = buffer.getChannelData(0).findIndex((sample) => Math.abs(sample) > MARK_LEVEL)
  if (mark < 0) throw new Error('the recording of the voice is silent')
  return { clips, buffer, shiftMs: (mark / RATE) * 1000 - markMs }
}
