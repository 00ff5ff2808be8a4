/** Wind along and across the runway against published examples; marks as in balance.test.ts. */

import { describe, expect, test } from 'vitest'
import { derived, figuresOf, modelOf } from '../kernel/figures/modelOf.ts'

function winds(heading: number, direction: number, speed: number, gust?: number) {
  const wind = { direction, speed, heading, ...(gust !== undefined && { gust }) }
  const { figures } = figuresOf(
    modelOf({
      figures: {
        head: derived('kt', { by: 'headwind', ...wind }, 0),
        cross: derived('kt', { by: 'crosswind', ...wind }, 0),
      },
    }),
  )
  return { head: figures.head?.value, cross: figures.cross?.value, why: figures.cross?.why[0]?.text ?? '' }
}

describe('wind as takeoff data take it', () => {
  // 14 CFR 25.105(d)(1): not more than 50 percent of a headwind, not less than 150 percent of a tailwind.
  test.each([
    [360, 20, 10],
    [180, 20, -30],
    [90, 20, 0],
  ])('from %i at %i kt on runway 36 counts %i', (direction, speed, credited) => {
    const shares = { headShare: 0.5, tailShare: 1.5 }
    const head = derived('kt', { by: 'headwind', direction, speed, heading: 360, ...shares }, 0)
    const { figures } = figuresOf(modelOf({ figures: { head } }))
    expect(figures.head?.value).toBe(credited)
    if (credited !== 0) expect(figures.head?.why[0]?.text).toMatch(credited > 0 ? /50 % of it$/ : /150 % of it$/)
  })
})

describe('wind components', () => {
  test.each([
    // FAA test item, looked up: redhorseaviation.com.
    [180, 220, 30, 23, 19, 'right'],
    // PHAK sample problem 10, 2nd hand. The chart is read as 22 and 13, arithmetic gives 21.65 and 12.50.
    [170, 140, 25, 22, 13, 'left'],
    // Looked up: repository test note that cites an exam's chart.
    [110, 85, 30, 27, 13, 'left'],
    [360, 30, 40, 35, 20, 'right'],
  ])('on %i, wind %i at %i kt: %i ahead, %i across from the %s', (heading, direction, speed, head, cross, side) => {
    const found = winds(heading, direction, speed)
    expect(found).toMatchObject({ head, cross })
    expect(found.why).toContain(`from the ${side}`)
  })

  test('gusts count across and behind, never ahead', () => {
    // Common practice, no source.
    expect(winds(360, 360, 10, 25)).toMatchObject({ head: 10, cross: 0 })
    expect(winds(360, 180, 10, 25)).toMatchObject({ head: -25, cross: 0 })
    expect(winds(360, 90, 10, 25)).toMatchObject({ head: 0, cross: 25 })
  })
})
