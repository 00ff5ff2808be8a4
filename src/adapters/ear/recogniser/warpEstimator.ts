/**
 * Estimates the warp of a voice after an answer that was understood: a pass decodes it again at each warp factor, a step at
 * a time, and goes on with the likeliest. As soon as somebody speaks it stops.
 */

import type { DecodePass } from './decodePass.ts'
import type { ScoredDecoding } from './decoder.ts'
import { WARP_FACTORS, type WarpEvidence, type WarpFactor, WarpStatistics } from './warp.ts'

export class WarpEstimator {
  private readonly pass: DecodePass
  private readonly statistics: WarpStatistics
  private decoded: ScoredDecoding[] = []
  /** Aborted, or undefined, where there is nothing to do. */
  private signal: AbortSignal | undefined

  /** `evidence` is what earlier utterances have shown. */
  constructor(pass: DecodePass, evidence?: WarpEvidence) {
    this.pass = pass
    this.statistics = new WarpStatistics(evidence)
    pass.setWarp(this.factor)
  }

  get evidence(): WarpEvidence {
    return this.statistics.evidence
  }

  get factor(): WarpFactor {
    return this.statistics.factor
  }

  /** To be called when what the pass decoded last was understood. */
  begin(): void {
    this.decoded = []
    this.signal = this.statistics.wants(this.pass.isNewVoice) ? this.pass.idleSignal : undefined
  }

  /** Takes as long as a pass; true where there is more to do. */
  step(): boolean {
    if (!this.signal || this.signal.aborted) return false
    const decoded = this.pass.redecode(WARP_FACTORS[this.decoded.length] ?? 1)
    if (!decoded) return false
    this.decoded.push(decoded)
    if (this.decoded.length < WARP_FACTORS.length) return true
    this.learn()
    this.pass.getReady()
    return false
  }

  private learn(): void {
    const frames = this.decoded[0]?.frames ?? 0
    if (frames === 0 || this.decoded.some(({ text }) => text === '')) return
    this.statistics.learn(
      this.decoded.map(({ score }) => score),
      frames,
    )
    this.pass.setWarp(this.factor)
  }
}
