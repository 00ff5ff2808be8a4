import { describe, expect, it } from 'vitest'
import type { RunEvent } from '../../../../src/kernel/run/core/events.ts'
import { firstOfBreath } from '../../../../src/kernel/run/debrief/breaths.ts'

const events = (...said: readonly (readonly [seq: number, evidence?: object])[]) =>
  said.map(([seq, evidence]) => ({ seq, ...(evidence && { evidence }) })) as unknown as RunEvent[]
const spoken = (beganAt?: number) => ({ by: 'voice', text: 'set', ...(beganAt !== undefined && { beganAt }) })

describe('what was said in one breath', () => {
  it('is of the sound of its first event, also where another came between', () => {
    const all = events([0], [1, spoken(100)], [2], [3, spoken(100)], [4, spoken(900)], [5, spoken(100)])
    expect([...firstOfBreath(all)]).toEqual([
      [1, 1],
      [3, 1],
      [4, 4],
      [5, 1],
    ])
  })

  it('has no sound where it was typed, pressed or has no time', () => {
    const all = events([1, { by: 'typed', text: 'set', beganAt: 5 }], [2, { by: 'key', text: '' }], [3, spoken()])
    expect([...firstOfBreath(all)]).toEqual([])
  })
})
