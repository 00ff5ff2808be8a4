import { describe, expect, it } from 'vitest'
import {
  type Frame,
  TIMES,
  UtteranceFinder,
  type UtteranceStep,
} from '../../../../src/adapters/ear/utterance/utteranceFinder.ts'
import type { Completeness } from '../../../../src/kernel/hearing/completeness.ts'

const FRAME_MS = 30

/** dBFS. */
const LEVELS: Readonly<Record<string, number>> = { '#': -20, '-': -38, '~': -38 }

/** Plays a line of `.` (silence), `#` (voice), `-` (a faint one) and `~` (others', told from it), a sign a frame; the form holds from the first pause on. */
function play(line: string, form: Completeness = 'complete', finder = new UtteranceFinder()): UtteranceStep[] {
  finder.open()
  let said: Completeness | undefined
  return [...line].flatMap((sign, index) => {
    const pcm = new Float32Array(480).fill(sign === '.' ? 0 : 0.1)
    const frame: Frame = {
      raw: pcm,
      clean: pcm,
      partlyDenoised: pcm,
      isVoiced: sign === '#' || sign === '-',
      isOthers: sign === '~',
      level: LEVELS[sign] ?? -90,
      at: index * FRAME_MS,
    }
    const step = finder.push(frame, said)
    if (step?.type === 'paused') said = form
    if (step?.type === 'resumed' || step?.type === 'ended') said = undefined
    return step ? [step] : []
  })
}

const frames = (ms: number, sign: string) => sign.repeat(Math.round(ms / FRAME_MS))
const endedAfter = (steps: readonly UtteranceStep[]) => steps.filter((step) => step.type === 'ended')

describe('an utterance', () => {
  it('ends a short pause after an answer whole in form', () => {
    const line = frames(600, '.') + frames(900, '#') + frames(TIMES.completeMs + 60, '.')
    const [ended] = endedAfter(play(line, 'complete'))
    expect(ended).toMatchObject({ utterance: { beganAt: 600, endedAt: 1500, isOnsetCut: false } })
  })

  it('ends sooner where nothing can follow, and not between its digits', () => {
    const line = frames(600, '.') + frames(900, '#') + frames(TIMES.finalMs + 60, '.')
    expect(endedAfter(play(line, 'final'))).toHaveLength(1)
    expect(endedAfter(play(line, 'complete'))).toEqual([])
    expect(
      endedAfter(
        play(frames(600, '.') + frames(300, '#') + frames(TIMES.finalMs - 30, '.') + frames(300, '#'), 'final'),
      ),
    ).toEqual([])
  })

  it('waits longer after a half one', () => {
    const line = frames(600, '.') + frames(900, '#')
    expect(endedAfter(play(line + frames(TIMES.completeMs + 60, '.'), 'partial'))).toEqual([])
    expect(endedAfter(play(line + frames(TIMES.partialMs + 60, '.'), 'partial'))).toHaveLength(1)
  })

  it('goes on where a digit follows after a pause, and keeps both', () => {
    const line = frames(600, '.') + frames(600, '#') + frames(700, '.') + frames(600, '#') + frames(1000, '.')
    const steps = play(line, 'partial')
    expect(steps.map(({ type }) => type)).toEqual(['began', 'paused', 'resumed', 'paused', 'ended'])
    expect(endedAfter(steps)[0]).toMatchObject({ utterance: { beganAt: 600 } })
  })

  it('keeps what was just before its first voiced sample', () => {
    const [ended] = endedAfter(play(frames(900, '.') + frames(600, '#') + frames(900, '.')))
    const samples = ended?.type === 'ended' ? ended.utterance.clean.findIndex((sample) => sample > 0) : 0
    expect(samples / 16).toBeGreaterThanOrEqual(480)
    expect(samples / 16).toBeLessThanOrEqual(600)
  })

  it('is no answer where its onset was before the ear opened', () => {
    const [ended] = endedAfter(play(frames(900, '#') + frames(900, '.')))
    expect(ended).toMatchObject({ utterance: { isOnsetCut: true } })
  })

  it('with a short tail of the voice at the opening, hears the answer after it whole', () => {
    const steps = play(frames(200, '#') + frames(1000, '.') + frames(900, '#') + frames(900, '.'))
    expect(endedAfter(steps)).toHaveLength(1)
    expect(endedAfter(steps)[0]).toMatchObject({ utterance: { isOnsetCut: false } })
  })

  it('begins with its first word where it follows the opening by 90 ms', () => {
    const [ended] = endedAfter(play(frames(90, '.') + frames(900, '#') + frames(900, '.')))
    expect(ended).toMatchObject({ utterance: { beganAt: 90, isOnsetCut: false } })
  })

  it('is none for a click', () => {
    expect(play(`${frames(600, '.')}##${frames(900, '.')}`)).toEqual([])
  })

  it('is cut off where someone never stops', () => {
    const [ended] = endedAfter(play(frames(300, '.') + frames(TIMES.longestMs + 300, '#')))
    expect(ended).toMatchObject({ utterance: { isTooLong: true } })
  })

  it('begins anew with who stands out of the talk in the room, with little of that before it, and is whole', () => {
    const line = frames(2_400, '-') + frames(900, '#') + frames(TIMES.completeMs + 60, '.')
    const steps = play(line)
    expect(steps.map(({ type }) => type)).toEqual(['began', 'resumed', 'paused', 'ended'])
    const [ended] = endedAfter(steps)
    expect(ended).toMatchObject({ utterance: { beganAt: 2_400, endedAt: 3_300, isOnsetCut: false } })
    const kept = ended?.type === 'ended' ? ended.utterance.clean.length / 16 : 0
    expect(kept).toBe(90 + 900 + 240)
  })

  it('keeps little of the talk of others before and after it', () => {
    const [ended] = endedAfter(play(frames(1_500, '~') + frames(900, '#') + frames(TIMES.completeMs + 60, '~')))
    expect(ended).toMatchObject({ utterance: { beganAt: 1_500, endedAt: 2_400 } })
    expect(ended?.type === 'ended' && ended.utterance.clean.length / 16).toBe(90 + 900 + 90)
  })

  it('keeps a first word that is as faint as that, and weak sounds at its end', () => {
    const line =
      frames(600, '.') + frames(300, '~') + frames(900, '#') + frames(90, '~') + frames(TIMES.completeMs, '.')
    const [ended] = endedAfter(play(line))
    expect(ended?.type === 'ended' && ended.utterance.clean.length / 16).toBe(480 + 900 + 240)
  })

  it('with a faint first word is one all the same', () => {
    const line = frames(600, '.') + frames(900, '-') + frames(900, '#') + frames(TIMES.completeMs + 60, '.')
    expect(endedAfter(play(line))).toMatchObject([{ utterance: { beganAt: 600 } }])
  })
})
