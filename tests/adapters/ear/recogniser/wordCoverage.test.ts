import { describe, expect, it } from 'vitest'
import { uncoveredShare } from '../../../../src/adapters/ear/recogniser/wordCoverage.ts'

/** Stretches of sound, each with its length and its amplitude. */
const sound = (...stretches: readonly (readonly [ms: number, amplitude: number])[]) =>
  Float32Array.from(
    stretches.flatMap(([ms, amplitude]) => Array.from({ length: ms * 16 }, (_, at) => amplitude * Math.sin(at / 4))),
  )
const word = (beginMs: number, endMs: number) => ({ text: 'continue', beginMs, endMs })
const PAUSE = [600, 0.001] as const

describe('what words leave over', () => {
  it('is nothing of an answer, whatever pauses are in it', () => {
    const answer = sound(PAUSE, [600, 0.3], PAUSE, [600, 0.2], PAUSE)
    expect(uncoveredShare(answer, [word(600, 1_200), word(1_800, 2_400)])).toBe(0)
    expect(uncoveredShare(answer, [word(650, 1_150), word(1_850, 2_300)])).toBe(0)
  })

  it('is most of a sentence in which one word was found', () => {
    expect(uncoveredShare(sound(PAUSE, [3_600, 0.2], PAUSE), [word(600, 1_080)])).toBeCloseTo(0.83, 1)
  })

  it('is all of it where no word was found, and nothing of silence', () => {
    expect(uncoveredShare(sound(PAUSE, [600, 0.3]), [])).toBe(1)
    expect(uncoveredShare(new Float32Array(16_000), [])).toBe(0)
    expect(uncoveredShare(new Float32Array(0), [])).toBe(0)
  })

  it('does not count noise well below the voice', () => {
    expect(uncoveredShare(sound([1_500, 0.03], [600, 0.3], [1_500, 0.03]), [word(1_500, 2_100)])).toBe(0)
  })
})
