/**
 * Frames -> utterances: where speech began and ended, and what of it is kept. It decides by voiced
 * frames and by form; it neither records nor recognises. Pure: the owner hands in frames and answers.
 */

import type { SaidForm } from '../../../kernel/hearing/form.ts'
import { joined } from '../audio/denoise.ts'
import { FRAME_MS } from '../audio/frame.ts'

export interface Frame {
  /** 16 kHz, 30 ms: the sound as it came, with the noise taken off, and with some of it left. */
  readonly raw: Float32Array
  readonly clean: Float32Array
  readonly eased: Float32Array
  readonly isVoiced: boolean
  /** Speech of others in the room. */
  readonly isOthers: boolean
  /** dBFS without the noise. */
  readonly level: number
  /** Clock time of its first sample. */
  readonly at: number
}

export interface Utterance {
  readonly raw: Float32Array
  readonly clean: Float32Array
  readonly eased: Float32Array
  readonly beganAt: number
  /** End of the last voiced frame. */
  readonly endedAt: number
  /** It had begun before the ear was open: its first word may lack. */
  readonly isOnsetCut: boolean
  /** It had to be ended while someone was still speaking. */
  readonly isTooLong: boolean
}

export type UtteranceStep =
  /** `clean` is all that is kept of it so far. */
  | { readonly type: 'began'; readonly at: number; readonly clean: Float32Array }
  /** A pause that may be the end: look at it now, the answer may be needed soon. */
  | { readonly type: 'paused'; readonly utterance: Utterance }
  /** Speech went on: what was looked at is void. `clean` is all of it so far. */
  | { readonly type: 'resumed'; readonly clean: Float32Array }
  /** That was no utterance after all. */
  | { readonly type: 'dropped' }
  | { readonly type: 'ended'; readonly utterance: Utterance }

export interface UtteranceTimes {
  /** Sound kept from before the first voiced frame. */
  readonly preRollMs: number
  /** Silence after which a look is taken. */
  readonly lookMs: number
  /** Silence that ends an answer of which nothing can follow, and one whole in form. */
  readonly fullMs: number
  readonly wholeMs: number
  /** Silence that ends any other. */
  readonly halfMs: number
  /** Nothing longer is waited for. */
  readonly longestMs: number
}
/** For a speaker who pauses inside an answer. */
export const PATIENT_TIMES: Pick<UtteranceTimes, 'fullMs' | 'wholeMs' | 'halfMs'> = {
  fullMs: 650,
  wholeMs: 650,
  halfMs: 1_300,
}
export const TIMES: UtteranceTimes = {
  preRollMs: 500,
  lookMs: 180,
  fullMs: 270,
  wholeMs: 400,
  halfMs: 850,
  longestMs: 12_000,
}

/** By what was said so far. */
export function silenceThatEnds(form: SaidForm | undefined, { fullMs, wholeMs, halfMs }: UtteranceTimes): number {
  if (form === 'full') return fullMs
  return form === 'whole' ? wholeMs : halfMs
}

/** Voiced frames in a row that make speech; fewer are clicks. */
const ONSET_FRAMES = 3
/** Silence kept behind the last voiced frame: final consonants are weak. */
const TAIL_MS = 240
/** A cut-off tail of someone else's voice is shorter than this, and no answer. */
const SHORTEST_CUT_MS = 350
/** An onset this close behind the opening was under way before it. */
const CUT_FRAMES = 2

/**
 * Who speaks at the microphone is so much louder than others in the room, whose talk may have been taken for the
 * beginning: talk of this length at least, so that no faint first word is ever dropped.
 */
const STANDS_OUT_DB = 12
const TALK_FRAMES = 33
/** Of their talk so much is kept before and behind an answer: weak sounds of its own may be under it, but no word. */
const OTHERS_KEPT_FRAMES = 3
/** More than this share of others' talk before an answer: a faint first word has less. Behind it: weak sounds at its end. */
const TALK_BEFORE = 0.75
const TALK_BEHIND = 0.5

interface Speech {
  frames: Frame[]
  first: number
  last: number
  isOnsetCut: boolean
  isLooked: boolean
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

  /** The ear opens: nothing from before this moment counts, so that its own voice is never judged. */
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

  /** `form` is that of the last look at the utterance under way, if there was one since speech was last heard. */
  push(frame: Frame, form: SaidForm | undefined): UtteranceStep | undefined {
    this.framesSinceOpen++
    this.voicedInRow = frame.isVoiced ? this.voicedInRow + 1 : 0
    return this.speech ? this.during(this.speech, frame, form) : this.before(frame)
  }

  /** The key is let go: what was said is whole. */
  end(): UtteranceStep | undefined {
    if (!this.speech) return undefined
    const utterance = this.cut(this.speech, false)
    this.open()
    return { type: 'ended', utterance }
  }

  /** Not listened to, and kept: whoever presses the key a little late has said the first word before it. */
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
    if (isTalk(this.ring.slice(0, voicedAt), TALK_BEFORE))
      this.ring = this.ring.slice(Math.max(0, voicedAt - OTHERS_KEPT_FRAMES))
    const first = this.ring.length - this.voicedInRow
    const isOnsetCut = this.framesSinceOpen - this.voicedInRow < CUT_FRAMES
    this.speech = speechIn(this.ring, first, isOnsetCut)
    this.ring = []
    return { type: 'began', at: (this.speech.frames[first] as Frame).at, clean: cleanOf(this.speech.frames) }
  }

  private during(speech: Speech, frame: Frame, form: SaidForm | undefined): UtteranceStep | undefined {
    speech.frames.push(frame)
    if (frame.isVoiced) {
      if (this.standsOut(speech, frame)) return this.beginAnew(speech)
      addTo(speech.loudness, frame)
      speech.last = speech.frames.length - 1
      if ((speech.last - speech.first) * FRAME_MS >= this.times.longestMs) return this.finish(speech, true)
      const wasLooked = speech.isLooked
      speech.isLooked = false
      return wasLooked ? { type: 'resumed', clean: cleanOf(speech.frames) } : undefined
    }
    const silence = (speech.frames.length - 1 - speech.last) * FRAME_MS
    if (!speech.isLooked && silence >= this.times.lookMs) {
      speech.isLooked = true
      return { type: 'paused', utterance: this.cut(speech, false) }
    }
    if (silence >= silenceThatEnds(form, this.times)) return this.finish(speech, false)
    return undefined
  }

  private standsOut({ frames, first, loudness }: Speech, { level }: Frame): boolean {
    const before = 10 * Math.log10(loudness.power / loudness.count)
    return level > before + STANDS_OUT_DB && frames.length - first > TALK_FRAMES
  }

  private beginAnew(speech: Speech): UtteranceStep {
    const frames = speech.frames.slice(-OTHERS_KEPT_FRAMES - 1)
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
    const behind = frames.slice(last + 1, last + 1 + TAIL_MS / FRAME_MS)
    const kept = [
      ...frames.slice(0, last + 1),
      ...(isTalk(behind, TALK_BEHIND) ? behind.slice(0, OTHERS_KEPT_FRAMES) : behind),
    ]
    return {
      raw: joined(kept.map(({ raw }) => raw)),
      clean: cleanOf(kept),
      eased: joined(kept.map(({ eased }) => eased)),
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
  return { frames, first, last: frames.length - 1, isOnsetCut, isLooked: false, loudness }
}

function addTo(loudness: Speech['loudness'], { level }: Frame): void {
  loudness.power += 10 ** (level / 10)
  loudness.count++
}

const cleanOf = (frames: readonly Frame[]) => joined(frames.map(({ clean }) => clean))
