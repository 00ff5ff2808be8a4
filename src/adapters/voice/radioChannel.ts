/** What a radio does to a voice: a narrow band, noise under it, and the click of the key at both ends. */

import type { RadioNoise } from '../../kernel/run/core/events.ts'

/** The band of a voice channel, common practice of telephony: ITU-T G.712, 300 to 3400 Hz. */
const BAND_HZ = { from: 300, to: 3_400 } as const
/** Steep enough that nothing is heard outside: two filters in a row on each side. */
const FILTERS = 2
/** The band takes some loudness; a radio is loud. */
const GAIN = 1.3
/** Before the band takes most of it: heavy is some 6 dB under the voice. */
const NOISES: Readonly<Record<RadioNoise, number>> = { none: 0, light: 0.012, heavy: 0.16 }
const CLICK_MS = 14
const CLICK = 0.12
/** Noise before and after the words, while the key is held. */
export const KEY_MS = 140

export interface Channel {
  /** For the voice, from `KEY_MS` after now on. */
  readonly input: AudioNode
  /** What sounds besides the voice; the last one ends when the key is let go. */
  readonly sources: readonly AudioBufferSourceNode[]
}

/** Opens a channel for a voice that lasts so long. */
export function openChannel(context: BaseAudioContext, voiceMs: number, level: RadioNoise): Channel {
  const out = new GainNode(context, { gain: GAIN })
  out.connect(context.destination)
  const input = filters(context, 'highpass', BAND_HZ.from, filters(context, 'lowpass', BAND_HZ.to, out))
  const begin = context.currentTime
  const end = begin + (2 * KEY_MS + voiceMs) / 1000
  const sources = [
    noise(context, input, NOISES[level], begin, end),
    noise(context, input, CLICK, begin, begin + CLICK_MS / 1000),
    noise(context, input, CLICK, end - CLICK_MS / 1000, end),
  ]
  return { input, sources }
}

/** Puts filters before a node; gives the first of them. */
function filters(context: BaseAudioContext, type: BiquadFilterType, frequency: number, before: AudioNode): AudioNode {
  let next = before
  for (let each = 0; each < FILTERS; each++) {
    const filter = new BiquadFilterNode(context, { type, frequency, Q: Math.SQRT1_2 })
    filter.connect(next)
    next = filter
  }
  return next
}

function noise(context: BaseAudioContext, to: AudioNode, level: number, begin: number, end: number) {
  const buffer = context.createBuffer(1, context.sampleRate, context.sampleRate)
  buffer.getChannelData(0).forEach((_, at, samples) => {
    samples[at] = (Math.random() * 2 - 1) * level
  })
  const source = new AudioBufferSourceNode(context, { buffer, loop: true })
  source.connect(to)
  source.start(begin)
  source.stop(end)
  return source
}
