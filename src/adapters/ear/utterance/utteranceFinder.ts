/**
 * Frames -> utterances: where speech begins and ends, and what of the sound is kept. It goes by which frames are voiced
 * and by how complete the answer is so far; it neither records nor recognises. Pure: the owner hands in both.
 */

import type { Completeness } from '../../../kernel/hearing/completeness.ts'
import { joined } from '../audio/denoise.ts'
import { FRAME_MS } from '../audio/frame.ts'

export interface Frame {
  /** 16 kHz, 30 ms: the sound as it came, without its noise, and with some of its noise left. */
  readonly raw: Float32Array
  readonly clean: Float32Array
  readonly partlyDenoised: Float32Array
  readonly isVoiced: boolean
  /** Speech, but of others in the room. */
  readonly isOthers: boolean
  /** dBFS without the noise. */
  readonly level: number
  /** Clock time of its first sample. */
  readonly at: number
}

/** 16 kHz mono: the sound as it came, without its noise, and with some of its noise left. */
export interface UtteranceSound {
  readonly raw: Float32Array
  readonly clean: Float32Array
  readonly partlyDenoised: Float32Array
}

export interface Utterance extends UtteranceSound {
  readonly beganAt: number
  /** End of the last voiced frame. */
  readonly endedAt: number
  /** It had begun before the ear was open: its first word may be missing. */
  readonly isOnsetCut: boolean
  /** It had to be ended while someone was still speaking. */
  readonly isTooLong: boolean
}

export type UtteranceStep =
  /** `clean` is all that is kept of it so far. */
  | { readonly type: 'began'; readonly at: number; readonly clean: Float32Array }
  /** A pause that may be the end: decide what was said now, the answer may be needed soon. */
  | { readonly type: 'paused'; readonly utterance: Utterance }
  /** Speech went on: what was decided is void. `clean` is all of it so far. */
  | { readonly type: 'resumed'; readonly clean: Float32Array }
  /** That was no utterance after all. */
  | { readonly type: 'dropped' }
  | { readonly type: 'ended'; readonly utterance: Utterance }

export interface UtteranceTimes {
  /** Sound kept from before the first voiced frame. */
  readonly preRollMs: number
  /** Silence after which what was said is decided. */
  readonly pausedMs: number
  /** Silence that ends an answer, by how complete it is. */
  readonly finalMs: number
  readonly completeMs: number
  readonly partialMs: number
  /** Longest utterance. */
  readonly longestMs: number
}
/** For a speaker who pauses inside an answer. */
export const PATIENT_TIMES: Pick<UtteranceTimes, 'finalMs' | 'completeMs' | 'partialMs'> = {
  finalMs: 650,
  completeMs: 650,
  partialMs: 1_300,
}
export const TIMES: UtteranceTimes = {
  preRollMs: 500,
  pausedMs: 180,
  finalMs: 270,
  completeMs: 400,
  partialMs: 850,
  longestMs: 12_000,
}

/** Silence that ends an answer that is this complete, ms. */
export function endSilence(said: Completeness | undefined, { finalMs, completeMs, partialMs }: UtteranceTimes): number {
  if (said === 'final') return finalMs
  return said === 'complete' ? completeMs : partialMs
}

/** Voiced frames in a row that make speech; fewer are clicks. */
const ONSET_FRAMES = 3
/** Silence kept after the last voiced frame: final consonants are weak. */
const TAIL_MS = 240
/** The cut-off tail of another voice is shorter than this, and no answer. */
const SHORTEST_CUT_MS = 350
/** Speech that begins within this many frames of the opening was under way before it. */
const CUT_FRAMES = 2

/**
 * A voice this much louder than what came before it is the pilot's, who sits at the microphone, and what came before was
 * talk in the room. Only after this many frames of talk, so that no faint first word is ever dropped.
 */
const STANDS_OUT_DB = 12
const TALK_FRAMES = 33
/** Frames of talk in the room that are kept around an answer: weak sounds of its own may be in them, but no word. */
const TALK_KEPT_FRAMES = 3
/** Sound before an answer is talk if more than this share of it is. A faint first word has a smaller share. */
const TALK_SHARE_BEFORE = 0.75
/** The same of sound after an answer, where its own weak sounds may be. */
const TALK_SHARE_AFTER = 0.5

interface Speech {
  frames: Frame[]
  first: number
  last: number
  isOnsetCut: boolean
  /** A pause was reported since the last voiced frame. */
  isPaused: boolean
  /** Of its voiced frames so far. */
  loudness: { power: number; count: number }
}

export class UtteranceFinder {
  private readonly usual: UtteranceTimes
  private times: UtteranceTimes
  private ring: Frame[] = []
  private voicedInRow = 0
  private framesSinceOpen = 0
  private speech: Speech | undefined

  constructor(times: UtteranceTimes = TIMES) {
    this.usual = times
    this.times = times
  }

  /** The ear opens: nothing from before counts, so that the app's own voice is never judged. */
  open(times?: Partial<UtteranceTimes>): void {
    if (times) this.times = { ...this.usual, ...times }
    this.ring = []
    this.voicedInRow = 0
    this.framesSinceOpen = 0
    this.speech = undefined
  }

  get isSpeaking(): boolean {
    return this.speech !== undefined
  }

  /** `said`: how complete the utterance is, where that was decided since speech was last heard. */
  push(frame: Frame, said: Completeness | undefined): UtteranceStep | undefined {
    this.framesSinceOpen++
    this.voicedInRow = frame.isVoiced ? this.voicedInRow + 1 : 0
    return this.speech ? this.during(this.speech, frame, said) : this.before(frame)
  }

  /** The key is let go: what was said is whole. */
  end(): UtteranceStep | undefined {
    if (!this.speech) return undefined
    const utterance = this.cut(this.speech, false)
    this.open()
    return { type: 'ended', utterance }
  }

  /** Kept, though nobody listens yet: whoever presses the talk key a little late has already said the first word. */
  keep(frame: Frame): void {
    this.framesSinceOpen++
    this.voicedInRow = 0
    this.enring(frame)
  }

  private enring(frame: Frame): void {
    this.ring.push(frame)
    if (this.ring.length > this.times.preRollMs / FRAME_MS + ONSET_FRAMES) this.ring.shift()
  }

  private before(frame: Frame): UtteranceStep | undefined {
    this.enring(frame)
    if (this.voicedInRow < ONSET_FRAMES) return undefined
    const voicedAt = this.ring.length - this.voicedInRow
    if (isTalk(this.ring.slice(0, voicedAt), TALK_SHARE_BEFORE))
      this.ring = this.ring.slice(Math.max(0, voicedAt - TALK_KEPT_FRAMES))
    const first = this.ring.length - this.voicedInRow
    const isOnsetCut = this.framesSinceOpen - this.voicedInRow < CUT_FRAMES
    this.speech = speechIn(this.ring, first, isOnsetCut)
    this.ring = []
    return { type: 'began', at: (this.speech.frames[first] as Frame).at, clean: cleanOf(this.speech.frames) }
  }

  private during(speech: Speech, frame: Frame, said: Completeness | undefined): UtteranceStep | undefined {
    speech.frames.push(frame)
    if (frame.isVoiced) {
      if (this.standsOut(speech, frame)) return this.beginAnew(speech)
      addTo(speech.loudness, frame)
      speech.last = speech.frames.length - 1
      if ((speech.last - speech.first) * FRAME_MS >= this.times.longestMs) return this.finish(speech, true)
      const wasPaused = speech.isPaused
      speech.isPaused = false
      return wasPaused ? { type: 'resumed', clean: cleanOf(speech.frames) } : undefined
    }
    const silence = (speech.frames.length - 1 - speech.last) * FRAME_MS
    if (!speech.isPaused && silence >= this.times.pausedMs) {
      speech.isPaused = true
      return { type: 'paused', utterance: this.cut(speech, false) }
    }
    if (silence >= endSilence(said, this.times)) return this.finish(speech, false)
    return undefined
  }

  private standsOut({ frames, first, loudness }: Speech, { level }: Frame): boolean {
    const before = 10 * Math.log10(loudness.power / loudness.count)
    return level > before + STANDS_OUT_DB && frames.length - first > TALK_FRAMES
  }

  private beginAnew(speech: Speech): UtteranceStep {
    const frames = speech.frames.slice(-TALK_KEPT_FRAMES - 1)
    this.speech = speechIn(frames, frames.length - 1, false)
    return { type: 'resumed', clean: cleanOf(frames) }
  }

  private finish(speech: Speech, isTooLong: boolean): UtteranceStep | undefined {
    const utterance = this.cut(speech, isTooLong)
    this.speech = undefined
    this.ring = []
    this.voicedInRow = 0
    // What follows in the same opening has a whole onset.
    this.framesSinceOpen = CUT_FRAMES + ONSET_FRAMES
    if (utterance.isOnsetCut && utterance.endedAt - utterance.beganAt < SHORTEST_CUT_MS) return { type: 'dropped' }
    return { type: 'ended', utterance }
  }

  private cut(speech: Speech, isTooLong: boolean): Utterance {
    const { frames, first, last, isOnsetCut } = speech
    const after = frames.slice(last + 1, last + 1 + TAIL_MS / FRAME_MS)
    const kept = [
      ...frames.slice(0, last + 1),
      ...(isTalk(after, TALK_SHARE_AFTER) ? after.slice(0, TALK_KEPT_FRAMES) : after),
    ]
    return {
      raw: joined(kept.map(({ raw }) => raw)),
      clean: cleanOf(kept),
      partlyDenoised: joined(kept.map(({ partlyDenoised }) => partlyDenoised)),
      beganAt: (frames[first] as Frame).at,
      endedAt: (frames[last] as Frame).at + FRAME_MS,
      isOnsetCut,
      isTooLong,
    }
  }
}

const isTalk = (frames: readonly Frame[], share: number) =>
  frames.filter(({ isOthers }) => isOthers).length > frames.length * share

/** Of frames that are voiced from `first` on. */
function speechIn(frames: Frame[], first: number, isOnsetCut: boolean): Speech {
  const loudness = { power: 0, count: 0 }
  for (const voiced of frames.slice(first)) addTo(loudness, voiced)
  return { frames, first, last: frames.length - 1, isOnsetCut, isPaused: false, loudness }
}

function addTo(loudness: Speech['loudness'], { level }: Frame): void {
  loudness.power += 10 ** (level / 10)
  loudness.count++
}

const cleanOf = (frames: readonly Frame[]) => joined(frames.map(({ clean }) => clean))
