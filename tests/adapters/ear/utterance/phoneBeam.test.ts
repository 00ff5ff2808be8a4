/** The search for texts by their phones, with log probabilities that are made by hand. */

import { describe, expect, it } from 'vitest'
import { likeliestBySound, type PhoneFrames } from '../../../../src/adapters/ear/utterance/phoneBeam.ts'
import { alternatives, optional, type RuleExpansion, sequence } from '../../../../src/kernel/grammarRules.ts'
import { startOf } from '../../../../src/kernel/hearing/grammarWalk.ts'
import { PHONES } from '../../../../src/kernel/hearing/phones.ts'

const PRONUNCIATIONS: Readonly<Record<string, readonly string[]>> = {
  on: ['AA N', 'AO N'],
  off: ['AO F'],
  not: ['N AA T'],
  two: ['T UW'],
  to: ['T UW'],
  nan: ['N AA N'],
}
const heard = (frames: PhoneFrames, expansion: RuleExpansion) =>
  likeliestBySound(
    frames,
    startOf({ start: 'heard', rules: [{ name: 'heard', expansion }] }),
    (word) => PRONUNCIATIONS[word] ?? [],
  )

/** `_` for no phone. What a frame does not name shares the rest of its probability. */
function framesOf(...frames: readonly Readonly<Record<string, number>>[]): PhoneFrames {
  const names = ['_', ...PHONES]
  const logProbs = frames.flatMap((given) => {
    const rest =
      (1 - Object.values(given).reduce((sum, one) => sum + one, 0)) / (names.length - Object.keys(given).length)
    return names.map((name) => Math.log(given[name] ?? rest))
  })
  return { logProbs: Float32Array.from(logProbs), count: frames.length }
}
const sure = (...names: readonly string[]) => framesOf(...names.map((name) => ({ [name]: 0.96 })))

describe('what is found by its sound', () => {
  it('is the text whose phones were heard, before all others that may be said', () => {
    const [best, next] = heard(sure('_', 'AO', '_', 'F', '_'), alternatives('on', 'off', 'not'))
    expect(best?.text).toBe('off')
    expect(best?.phoneCount).toBe(2)
    expect(next?.text).toBe('on')
  })

  it('is never what may not be said', () => {
    const found = heard(sure('_', 'AO', '_', 'F', '_'), alternatives('on', 'not'))
    expect(found.map(({ text }) => text).sort()).toEqual(['not', 'on'])
  })

  it('is nothing where a word is not finished, or more must be said', () => {
    expect(heard(sure('N', 'AA'), 'not').map(({ text }) => text)).toEqual([])
    expect(heard(sure('AO', 'F'), sequence('off', 'not'))).toEqual([])
  })

  it('has the probability of all its pronunciations', () => {
    const [best] = heard(framesOf({ AA: 0.5, AO: 0.4 }, { N: 0.9 }), 'on')
    expect(Math.exp(best?.logProb ?? 0)).toBeCloseTo(0.9 * 0.9)
  })

  it('has the probability of all ways to spread its phones over the frames', () => {
    const frames = framesOf({ AO: 0.5, _: 0.4 }, { AO: 0.3, F: 0.3, _: 0.3 }, { F: 0.5, _: 0.4 })
    const ways = [...[0.5 * 0.3 * 0.5, 0.5 * 0.3 * 0.5, 0.5 * 0.3 * 0.5], ...[0.4 * 0.3 * 0.5, 0.5 * 0.3 * 0.4]]
    const [best] = heard(frames, 'off')
    expect(Math.exp(best?.logProb ?? 0)).toBeCloseTo(ways.reduce((sum, way) => sum + way, 0))
  })

  it('goes on behind a word, and has both where two sound alike', () => {
    const found = heard(sure('T', 'UW', '_', 'AO', 'F'), sequence(alternatives('two', 'to'), optional('off')))
    expect(found.slice(0, 2).map(({ text }) => text)).toEqual(['two off', 'to off'])
    expect(found[0]?.logProb).toBeCloseTo(found[1]?.logProb ?? 0)
  })

  it('has a phone twice only where there was none between', () => {
    const twice = sequence('nan', 'not')
    const [best] = heard(sure('N', 'AA', 'N', '_', 'N', 'AA', 'T'), alternatives('nan', 'not', twice))
    expect(best?.text).toBe('nan not')
    const [run] = heard(sure('N', 'AA', 'N', 'N', 'N', 'AA', 'T'), alternatives('nan', 'not', twice))
    expect(run?.logProb).toBeLessThan((best?.logProb ?? 0) - 3)
  })

  it('leaves a word aside that has no pronunciation', () => {
    expect(heard(sure('AO', 'F'), alternatives('off', 'unheard')).map(({ text }) => text)).toEqual(['off'])
  })
})
