/** The app's own sounds: calm and short, told apart by pitch and number, made by oscillators. */

import type { ToneName } from '../../kernel/run/core/events.ts'

interface Note {
  readonly hz: number
  readonly atMs: number
  readonly lengthMs: number
  /** 0 to 1. */
  readonly gain: number
}

const TONES: Readonly<Record<ToneName, readonly Note[]>> = {
  tick: [{ hz: 1320, atMs: 0, lengthMs: 45, gain: 0.12 }],
  attention: [
    { hz: 660, atMs: 0, lengthMs: 140, gain: 0.25 },
    { hz: 880, atMs: 170, lengthMs: 200, gain: 0.25 },
  ],
  deaf: [
    { hz: 740, atMs: 0, lengthMs: 180, gain: 0.25 },
    { hz: 554, atMs: 220, lengthMs: 180, gain: 0.25 },
    { hz: 370, atMs: 440, lengthMs: 320, gain: 0.25 },
  ],
  soft: [{ hz: 440, atMs: 0, lengthMs: 260, gain: 0.12 }],
  // Two carriers on one frequency whistle at the difference between them, and that wanders.
  steppedOn: [
    { hz: 1240, atMs: 0, lengthMs: 420, gain: 0.2 },
    { hz: 1310, atMs: 380, lengthMs: 460, gain: 0.22 },
    { hz: 1275, atMs: 800, lengthMs: 500, gain: 0.2 },
  ],
}

/** Edges of a note: without them it clicks. */
const EDGE_MS = 12

/** Plays a tone into an output that runs. */
export function playTone(context: AudioContext, name: ToneName): void {
  const start = context.currentTime + 0.005
  for (const note of TONES[name]) playNote(context, start, note)
}

function playNote(context: AudioContext, start: number, note: Note): void {
  const begin = start + note.atMs / 1000
  const end = begin + note.lengthMs / 1000
  const edge = EDGE_MS / 1000
  const oscillator = new OscillatorNode(context, { frequency: note.hz })
  const gain = new GainNode(context, { gain: 0 })
  gain.gain.setValueAtTime(0, begin)
  gain.gain.linearRampToValueAtTime(note.gain, begin + edge)
  gain.gain.setValueAtTime(note.gain, end - edge)
  gain.gain.linearRampToValueAtTime(0, end)
  oscillator.connect(gain).connect(context.destination)
  oscillator.start(begin)
  oscillator.stop(end)
}

/** A voice that is asked to speak begins so much later. */
const VOICE_LEAD_MS = 40

/** Time after which the voice may be asked to speak: it begins as the tone ends, and the next challenge waits for neither. */
export function untilVoiceMs(name: ToneName): number {
  return Math.max(...TONES[name].map((note) => note.atMs + note.lengthMs)) - VOICE_LEAD_MS
}
