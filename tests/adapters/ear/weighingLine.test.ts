/** The line to the weigher: answers find who asked, and a weigher that is silent is done without. */

import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { WeighingOrder } from '../../../src/adapters/ear/messages.ts'
import { WeighingLine } from '../../../src/adapters/ear/weighingLine.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

function lineTo() {
  const told: WeighingOrder[] = []
  const port = { postMessage: (order: WeighingOrder) => void told.push(order) } as unknown as MessagePort
  const lost = vi.fn()
  const line = new WeighingLine(port, lost)
  const answer = (id: number, weights?: readonly number[]) =>
    port.onmessage?.({ data: { id, weights } } as MessageEvent)
  return { line, told, answer, lost }
}
const PCM = new Float32Array(480)

describe('the line to the weigher', () => {
  it('has a sound taken in at once, and asks about it when there is something to weigh', async () => {
    const { line, told, answer } = lineTo()
    const [one, other] = [line.weighing(PCM), line.weighing(PCM)]
    expect(told.map(({ type, id }) => [type, id])).toEqual([
      ['take', 1],
      ['take', 2],
    ])
    const [ofOne, ofOther] = [one?.(['brake set']), other?.(['brake on'])]
    answer(2, [-7])
    answer(1, [-3])
    expect(await ofOne).toEqual([-3])
    expect(await ofOther).toEqual([-7])
  })

  it('says so where the weigher could not', async () => {
    const { line, answer } = lineTo()
    const weights = line.weighing(PCM)?.(['brake set'])
    answer(1)
    expect(await weights).toBeUndefined()
  })

  it('is given up where no answer comes, for all who wait and for good', async () => {
    const { line, lost } = lineTo()
    const waiting = [line.weighing(PCM)?.(['brake set']), line.weighing(PCM)?.(['brake on'])]
    const late = line.weighing(PCM)
    await vi.advanceTimersByTimeAsync(3_000)
    expect(await Promise.all(waiting)).toEqual([undefined, undefined])
    expect(lost).toHaveBeenCalledTimes(1)
    expect(line.weighing(PCM)).toBeUndefined()
    expect(await late?.(['brake set'])).toBeUndefined()
  })
})
