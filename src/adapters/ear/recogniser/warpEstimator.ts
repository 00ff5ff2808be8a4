/**
 * Behind an answer that was understood: the second look decodes it again at each scale of the filters, a step at a time,
 * and both looks go on at the likeliest. What is said meanwhile goes first, and puts an end to it.
 */

import type { Look } from './decodePass.ts'
import type { Decoded } from './decoder.ts'
import { SCALES, type Scale, type TractEvidence, VocalTract } from './warp.ts'

export class VoiceStudy {
  private readonly look: Look
  private readonly tract: VocalTract
  private decoded: Decoded[] = []
  /** The look at which it began; undefined where nothing is under way. */
  private behind: number | undefined

  /** `known` is what an earlier one knew of the voice. */
  constructor(look: Look, known?: TractEvidence) {
    this.look = look
    this.tract = new VocalTract(known)
    look.suit(this.scale)
  }

  get evidence(): TractEvidence {
    return this.tract.evidence
  }

  get scale(): Scale {
    return this.tract.scale
  }

  /** What the look heard last was understood. */
  begin(): void {
    this.decoded = []
    this.behind = this.tract.wants(this.look.isNewVoice) ? this.look.looks : undefined
  }

  /** As long as a look; true where there is more to do. */
  step(): boolean {
    if (this.behind !== this.look.looks) return false
    const decoded = this.look.againAt(SCALES[this.decoded.length] ?? 1)
    if (!decoded) return false
    this.decoded.push(decoded)
    if (this.decoded.length < SCALES.length) return true
    this.learn()
    this.look.ready()
    return false
  }

  private learn(): void {
    const frames = this.decoded[0]?.frames ?? 0
    if (frames === 0 || this.decoded.some(({ text }) => text === '')) return
    this.tract.learn(
      this.decoded.map(({ score }) => score),
      frames,
    )
    this.look.suit(this.scale)
  }
}
