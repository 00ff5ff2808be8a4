/**
 * The ear without its threads: frames and requests to listen in, ear events out. It joins the noise suppressor, the finder
 * of utterances and the decision about each.
 */

import { type Completeness, completeness } from '../../../kernel/hearing/completeness.ts'
import type { Hearable } from '../../../kernel/hearing/hearable.ts'
import type { EarEvent, EarGate, EarState, ListenRequest } from '../../../ports.ts'
import type { Denoiser } from '../audio/denoise.ts'
import { inSixteenBits } from '../audio/sixteenBits.ts'
import { VoicingMeter } from '../audio/voicing.ts'
import { type Decision, decideUtterance, type Hearers } from './decide.ts'
import type { Task } from './recogniser.ts'
import {
  type Frame,
  PATIENT_TIMES,
  type Utterance,
  UtteranceFinder,
  type UtteranceStep,
  type UtteranceTimes,
} from './utteranceFinder.ts'

export interface ListeningParts extends Hearers {
  readonly denoiser: Denoiser
  readonly taskFor: (hearable: Hearable) => Task
  readonly emit: (event: EarEvent) => void
  /** The last utterance was understood: something can be learned of the voice when there is time. */
  readonly understood: () => void
  readonly times?: UtteranceTimes
}

/** What is listened for, and what the recognisers were given for it. */
interface Listened {
  readonly request: ListenRequest
  readonly task: Task
}

/** What the utterance under way is so far, decided in its last pause. */
interface Pending extends Decision {
  readonly completeness: Completeness
}

const LEVEL_EVERY_FRAMES = 3
/** Keys are let go on the last syllable. */
const KEY_TAIL_MS = 150
/** Frames kept while nothing is listened for: a busy page may ask this late. */
const KEPT_FRAMES = 100

export class Listening {
  private readonly parts: ListeningParts
  private readonly meter = new VoicingMeter()
  private readonly finder: UtteranceFinder
  private listened: Listened | undefined
  private opensAt = 0
  /** Captured while nothing was listened for, oldest first. */
  private kept: Frame[] = []
  /** From when on the gate is shut, and whether what is said then is kept as the beginning of what follows. */
  private gateShutsAt = Number.POSITIVE_INFINITY
  private keepsWhileShut = false
  private state: EarState = 'shut'
  private pending: Pending | undefined
  /** Aborted when speech goes on: decisions made before are void. */
  private wentOn = new AbortController()
  private framesSinceLevel = 0

  constructor(parts: ListeningParts) {
    this.parts = parts
    this.finder = new UtteranceFinder(parts.times)
  }

  /** What was captured before `opensAt` is the app's own voice; what came since then is heard, though the page asks late. */
  listen(request: ListenRequest, opensAt: number): void {
    const { taskFor, passes } = this.parts
    const task = taskFor(request.hearable)
    this.listened = { request, task }
    this.opensAt = opensAt
    this.pending = undefined
    this.finder.open(request.isPatient ? PATIENT_TIMES : {})
    this.become('guard')
    passes.second.expect(task)
    passes.first.expect(task)
    for (const frame of this.kept.splice(0)) this.hear(frame, this.listened)
  }

  shut(): void {
    this.listened = undefined
    this.pending = undefined
    this.finder.open()
    this.become('shut')
  }

  gate(gate: EarGate, now: number): void {
    this.keepsWhileShut = gate === 'ended'
    if (gate === 'ended') this.gateShutsAt = Math.min(this.gateShutsAt, now + KEY_TAIL_MS)
    else if (gate === 'open') this.gateShutsAt = Number.POSITIVE_INFINITY
    else {
      this.gateShutsAt = 0
      this.pending = undefined
      this.finder.open()
      this.kept = []
    }
  }

  /** 30 ms at 16 kHz; `at` is the clock time of its first sample. Frames are measured even while shut. */
  frame(pcm: Float32Array, at: number): void {
    const { clean, partlyDenoised, speech } = this.parts.denoiser.push(pcm)
    const voicing = this.meter.measure(pcm, clean, speech, this.listened !== undefined && at >= this.opensAt)
    if (++this.framesSinceLevel >= LEVEL_EVERY_FRAMES) {
      this.framesSinceLevel = 0
      this.parts.emit({ type: 'level', level: voicing.level, noise: voicing.noise, clipping: voicing.isClipping })
    }
    const { isVoiced, isOthers, cleanLevel } = voicing
    const frame = { raw: pcm, clean, partlyDenoised, isVoiced, isOthers, level: cleanLevel, at }
    if (this.listened) this.hear(frame, this.listened)
    else if (at < this.gateShutsAt) this.kept = [...this.kept.slice(1 - KEPT_FRAMES), frame]
  }

  private hear(frame: Frame, listened: Listened): void {
    if (frame.at < this.opensAt) return
    const isShut = frame.at >= this.gateShutsAt
    if (this.state === 'guard') {
      this.finder.open()
      if (!isShut) this.become('open')
    }
    const step = isShut ? this.finder.end() : this.finder.push(frame, this.pending?.completeness)
    const isFollowed = this.finder.isSpeaking && step?.type !== 'began' && step?.type !== 'resumed' && !this.pending
    if (isFollowed) this.follow('push', frame.clean)
    if (step) this.take(step, listened)
    if (isShut) {
      if (this.keepsWhileShut) this.finder.keep(frame)
      else this.finder.open()
      this.become('shut')
    } else if (this.state === 'shut') this.become(this.finder.isSpeaking ? 'hearing' : 'open')
  }

  private take(step: UtteranceStep, listened: Listened): void {
    switch (step.type) {
      case 'began':
        this.become('hearing')
        this.follow('begin', step.clean)
        this.parts.emit({ type: 'speechBegan', listenId: listened.request.listenId, at: step.at })
        return
      case 'paused':
        this.pending = this.decide(step.utterance, listened)
        return
      case 'resumed':
        this.pending = undefined
        this.wentOn.abort()
        this.wentOn = new AbortController()
        this.follow('begin', step.clean)
        return
      case 'dropped':
        this.pending = undefined
        this.become('open')
        return
      case 'ended': {
        const decision = this.pending ?? this.decide(step.utterance, listened)
        this.pending = undefined
        this.become('open')
        void this.report(step.utterance, decision, listened.request)
        return
      }
      default:
        step satisfies never
    }
  }

  /** Both passes decode while the utterance comes, the second in its own thread. */
  private follow(how: 'begin' | 'push', pcm: Float32Array): void {
    const { first, second } = this.parts.passes
    second[how](pcm)
    first[how](pcm)
  }

  private decide(utterance: Utterance, { request, task }: Listened): Pending {
    const decision = decideUtterance(utterance, task, this.parts, this.wentOn.signal)
    const { text } = decision.first
    this.parts.emit({ type: 'soFar', listenId: request.listenId, text })
    return { ...decision, completeness: completeness(request.hearable, text) }
  }

  private async report(
    utterance: Utterance,
    decision: Decision,
    { listenId, keepsSound }: ListenRequest,
  ): Promise<void> {
    const { text, words, confidence, doubt, alternatives } = await decision.recognition
    const { beganAt, endedAt, isOnsetCut, isTooLong } = utterance
    const isOther = isTooLong || doubt === 'otherSpeech'
    const doubted = isOther ? 'otherSpeech' : isOnsetCut ? 'onsetCut' : doubt
    const score = confidence > 0 ? { score: confidence } : {}
    if (keepsSound) this.parts.emit({ type: 'sound', listenId, beganAt, samples: inSixteenBits(utterance.raw) })
    this.parts.emit({
      type: 'heard',
      heard: {
        ...{ listenId, text, words, beganAt, endedAt, by: 'voice' },
        ...score,
        ...(doubted && { doubt: doubted }),
        ...(alternatives && { alternatives }),
      },
    })
    if (!doubted && listenId === this.listened?.request.listenId) this.parts.understood()
  }

  private become(state: EarState): void {
    if (state === this.state) return
    this.state = state
    this.parts.emit({ type: 'state', state })
  }
}
