/**
 * Hop 2 without threads: frames and orders in, ear events out. It joins the denoiser, the finder of
 * utterances, and two looks of which the second may be in another worker.
 */

import { saidForm } from '../../../kernel/hearing/form.ts'
import type { EarEvent, EarGate, EarState, ListenOrder } from '../../../ports.ts'
import type { Denoiser } from '../audio/denoise.ts'
import { VoicingMeter } from '../audio/voicing.ts'
import type { Decoded } from '../recogniser/decoder.ts'
import { mayBeUpheld, type Recognition, recognition, settled, upheld } from './recognition.ts'
import { inWeight, type Weighing } from './rescoring.ts'
import {
  type Frame,
  PATIENT_TIMES,
  type Utterance,
  UtteranceFinder,
  type UtteranceStep,
  type UtteranceTimes,
} from './utteranceFinder.ts'

/** Both looks at once; `first` is the one that answers immediately, `second` may be in another worker. */
export interface Looks {
  expect(order: ListenOrder): void
  /** An utterance that is looked at while it comes: what there is of it, and each further piece. */
  begin(pcm: Float32Array): void
  push(pcm: Float32Array): void
  /** What they made of it; undefined where they could not: then it takes a look at the whole. */
  end(): Pair<Decoded | undefined>
  /** Whole utterances. */
  at(pcm: Float32Array): Pair<Decoded>
  /** The same by further front ends, for want of a weigher. */
  furtherAt(pcm: Float32Array): Pair<Decoded>
  /** Begins to take in an utterance for weighing; undefined where there is no weigher. */
  weighing(pcm: Float32Array): Weighing | undefined
  /** The last utterance was understood: something can be learned of the voice when there is time. */
  understood(): void
}
interface Pair<T> {
  readonly first: T
  readonly second: Promise<T>
}

interface Taken {
  readonly recognition: Promise<Recognition>
  readonly form: ReturnType<typeof saidForm>
}

const LEVEL_EVERY_FRAMES = 3
/** Keys are let go on the last syllable. */
const KEY_TAIL_MS = 150
/** So much is kept while no order is in force: a busy page may give one this late. */
const KEPT_FRAMES = 100

export class Listening {
  private readonly looks: Looks
  private readonly denoiser: Denoiser
  private readonly emit: (event: EarEvent) => void
  private readonly meter = new VoicingMeter()
  private readonly finder: UtteranceFinder
  private order: ListenOrder | undefined
  private opensAt = 0
  /** Captured while no order was in force, oldest first. */
  private kept: Frame[] = []
  /** From when on the gate is shut, and whether what is said then is kept as the beginning of what follows. */
  private gateShutsAt = Number.POSITIVE_INFINITY
  private keepsBehindGate = false
  private state: EarState = 'shut'
  private taken: Taken | undefined
  /** Counts how often speech went on: a look from before is void. */
  private resumptions = 0
  private sinceLevel = 0

  constructor(parts: {
    looks: Looks
    denoiser: Denoiser
    emit: (event: EarEvent) => void
    times?: UtteranceTimes
  }) {
    this.looks = parts.looks
    this.denoiser = parts.denoiser
    this.emit = parts.emit
    this.finder = new UtteranceFinder(parts.times)
  }

  /** What is captured before `opensAt` is the app's own voice; what was captured since then is heard though the order came late. */
  listen(order: ListenOrder, opensAt: number): void {
    this.order = order
    this.opensAt = opensAt
    this.taken = undefined
    this.finder.open(order.isPatient ? PATIENT_TIMES : {})
    this.become('guard')
    this.looks.expect(order)
    for (const frame of this.kept.splice(0)) this.hear(frame, order)
  }

  shut(): void {
    this.order = undefined
    this.taken = undefined
    this.finder.open()
    this.become('shut')
  }

  gate(gate: EarGate, now: number): void {
    this.keepsBehindGate = gate === 'ended'
    if (gate === 'ended') this.gateShutsAt = Math.min(this.gateShutsAt, now + KEY_TAIL_MS)
    else if (gate === 'open') this.gateShutsAt = Number.POSITIVE_INFINITY
    else {
      this.gateShutsAt = 0
      this.taken = undefined
      this.finder.open()
      this.kept = []
    }
  }

  /** 30 ms at 16 kHz; `at` is the clock time of its first sample. Frames are measured even while shut. */
  frame(pcm: Float32Array, at: number): void {
    const { clean, eased, speech } = this.denoiser.push(pcm)
    const voicing = this.meter.measure(pcm, clean, speech, this.order !== undefined && at >= this.opensAt)
    if (++this.sinceLevel >= LEVEL_EVERY_FRAMES) {
      this.sinceLevel = 0
      this.emit({ type: 'level', level: voicing.level, noise: voicing.noise, clipping: voicing.isClipping })
    }
    const { isVoiced, isOthers, cleanLevel } = voicing
    const frame = { raw: pcm, clean, eased, isVoiced, isOthers, level: cleanLevel, at }
    if (this.order) this.hear(frame, this.order)
    else if (at < this.gateShutsAt) this.kept = [...this.kept.slice(1 - KEPT_FRAMES), frame]
  }

  private hear(frame: Frame, order: ListenOrder): void {
    if (frame.at < this.opensAt) return
    const isBehindGate = frame.at >= this.gateShutsAt
    if (this.state === 'guard') {
      this.finder.open()
      if (!isBehindGate) this.become('open')
    }
    const step = isBehindGate ? this.finder.end() : this.finder.push(frame, this.taken?.form)
    if (this.finder.isSpeaking && step?.type !== 'began' && step?.type !== 'resumed' && !this.taken)
      this.looks.push(frame.clean)
    if (step) this.take(step, order)
    if (isBehindGate) {
      if (this.keepsBehindGate) this.finder.keep(frame)
      else this.finder.open()
      this.become('shut')
    } else if (this.state === 'shut') this.become(this.finder.isSpeaking ? 'hearing' : 'open')
  }

  private take(step: UtteranceStep, order: ListenOrder): void {
    switch (step.type) {
      case 'began':
        this.become('hearing')
        this.looks.begin(step.clean)
        this.emit({ type: 'speechBegan', order: order.order, at: step.at })
        return
      case 'paused':
        this.taken = this.look(step.utterance, order)
        return
      case 'resumed':
        this.taken = undefined
        this.resumptions++
        this.looks.begin(step.clean)
        return
      case 'dropped':
        this.taken = undefined
        this.become('open')
        return
      case 'ended': {
        const taken = this.taken ?? this.look(step.utterance, order)
        this.taken = undefined
        this.become('open')
        this.report(step.utterance, taken, order.order)
        return
      }
      default:
        step satisfies never
    }
  }

  private look(utterance: Utterance, { hearable, order }: ListenOrder): Taken {
    const weighing = this.looks.weighing(utterance.eased)
    const { first, second } = this.looks.end()
    const looked = first
      ? { first, recognition: this.agreed(utterance, first, second, weighing) }
      : this.lookAtWhole(utterance, weighing)
    this.emit({ type: 'soFar', order, text: looked.first.text })
    return { recognition: looked.recognition, form: saidForm(hearable, looked.first.text) }
  }

  private async agreed(
    utterance: Utterance,
    first: Decoded,
    second: Promise<Decoded | undefined>,
    weighing: Weighing | undefined,
  ): Promise<Recognition> {
    const isWanted = this.wanted()
    const followed = settled(utterance.raw, first, await second)
    if (followed) return (await inWeight(followed, [first], weighing, isWanted)) ?? followed
    // Nobody asks about it any more, and what is followed by now must not be disturbed.
    if (!isWanted()) return { text: first.text, words: first.words, confidence: 0, doubt: 'unsure' }
    return this.lookAtWhole(utterance, weighing).recognition
  }

  private lookAtWhole(
    utterance: Utterance,
    weighing: Weighing | undefined,
  ): { first: Decoded; recognition: Promise<Recognition> } {
    const { first, second } = this.looks.at(utterance.clean)
    return { first, recognition: this.ofWhole(utterance, first, second, weighing) }
  }

  private async ofWhole(
    { raw, eased }: Utterance,
    first: Decoded,
    secondLook: Promise<Decoded>,
    weighing: Weighing | undefined,
  ): Promise<Recognition> {
    const isWanted = this.wanted()
    const second = await secondLook
    const found = recognition(raw, first, second)
    const inAll = await inWeight(found, [first, second], weighing, isWanted)
    if (inAll || !mayBeUpheld(found) || !isWanted()) return inAll ?? found
    const further = this.looks.furtherAt(eased)
    return upheld(found, first, [further.first, await further.second])
  }

  /** Whether speech has not gone on since. */
  private wanted(): () => boolean {
    const { resumptions } = this
    return () => resumptions === this.resumptions
  }

  private async report(utterance: Utterance, taken: Taken, order: number): Promise<void> {
    const { text, words, confidence, doubt, alternatives } = await taken.recognition
    const { beganAt, endedAt, isOnsetCut, isTooLong } = utterance
    const isOther = isTooLong || doubt === 'otherSpeech'
    const doubted = isOther ? 'otherSpeech' : isOnsetCut ? 'onsetCut' : doubt
    const score = confidence > 0 ? { score: confidence } : {}
    this.emit({
      type: 'heard',
      heard: {
        ...{ order, text, words, beganAt, endedAt, by: 'voice' },
        ...score,
        ...(doubted && { doubt: doubted }),
        ...(alternatives && { alternatives }),
      },
    })
    if (!doubted && order === this.order?.order) this.looks.understood()
  }

  private become(state: EarState): void {
    if (state === this.state) return
    this.state = state
    this.emit({ type: 'state', state })
  }
}
