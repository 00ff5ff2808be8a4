/** The line to the weigher: answers find who asked, and a weigher that is silent is done without. */

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { WeighingOrder } from '../../../../src/adapters/ear/device/messages.ts'
import type { Weighed } from '../../../../src/adapters/ear/rescorer/hypothesis.ts'
import { WeighingLine } from '../../../../src/adapters/ear/rescorer/rescorerClient.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

function lineTo() {
  const told: WeighingOrder[] = []
  const port = { postMessage: (order: WeighingOrder) => void told.push(order) } as unknown as MessagePort
  const lost = vi.fn()
  const line = new WeighingLine(port, lost)
  const answer = (id: number, sayings?: readonly Weighed[]) =>
    port.onmessage?.({ data: { id, sayings } } as MessageEvent)
  return { line, told, answer, lost }
}
const PCM = new Float32Array(480)
const GRAMMAR = { start: 'heard', rules: [{ name: 'heard', expansion: 'set' }] }
const SET = [{ text: 'brake set', weight: -3, habit: 0 }]
const ON = [{ text: 'brake on', weight: -7, habit: 0 }]

describe('the line to the weigher', () => {
  it('has a sound taken in at once, and asks about it when there is something to weigh', async () => {
    const { line, told, answer } = lineTo()
    const [one, other] = [line.weighing(PCM, GRAMMAR), line.weighing(PCM, GRAMMAR)]
    expect(told.map(({ type, id }) => [type, id])).toEqual([
      ['take', 1],
      ['take', 2],
    ])
    const [ofOne, ofOther] = [one?.weigh(['brake set']), other?.weigh(['brake on'])]
    answer(2, ON)
    answer(1, SET)
    expect(await ofOne).toEqual(SET)
    expect(await ofOther).toEqual(ON)
  })

  it('asks what the weigher hears itself by the grammar of the item', async () => {
    const { line, told, answer } = lineTo()
    const sayings = line.weighing(PCM, GRAMMAR)?.hear(['brake set'])
    expect(told.at(-1)).toEqual({ type: 'hear', id: 1, grammar: GRAMMAR, beside: ['brake set'] })
    answer(1, ON)
    expect(await sayings).toEqual(ON)
  })

  it('asks what the weigher hears where anything may be said', async () => {
    const { line, told, answer } = lineTo()
    const sayings = line.weighing(PCM, GRAMMAR)?.hearAnything()
    expect(told.at(-1)).toEqual({ type: 'hearAnything', id: 1 })
    answer(1, ON)
    expect(await sayings).toEqual(ON)
  })

  it('says so where the weigher could not', async () => {
    const { line, answer } = lineTo()
    const weights = line.weighing(PCM, GRAMMAR)?.weigh(['brake set'])
    answer(1)
    expect(await weights).toBeUndefined()
  })

  it('is given up where no answer comes, for all who wait and for good', async () => {
    const { line, lost } = lineTo()
    const waiting = [
      line.weighing(PCM, GRAMMAR)?.weigh(['brake set']),
      line.weighing(PCM, GRAMMAR)?.weigh(['brake on']),
    ]
    const late = line.weighing(PCM, GRAMMAR)
    await vi.advanceTimersByTimeAsync(3_000)
    expect(await Promise.all(waiting)).toEqual([undefined, undefined])
    expect(lost).toHaveBeenCalledTimes(1)
    expect(line.weighing(PCM, GRAMMAR)).toBeUndefined()
    expect(await late?.weigh(['brake set'])).toBeUndefined()
  })
})
