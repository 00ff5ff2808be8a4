/** The twin's items against what pilots say to them: right ones pass, and nothing else does. */

import { describe, expect, test } from 'vitest'
import { compute, figureOf } from '../../src/kernel/figures/compute.ts'
import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import { findItem, responseOf, saidFigures } from '../../src/kernel/pack/place.ts'
import { judge } from '../../src/kernel/response/judge.ts'
import { TWIN_SAYINGS } from '../corpus/twinSayings.ts'
import { packAt, revision } from '../kernel/figures/marram.ts'

const pack = await packAt('checklists/pair')
const set = compute(pack.figures, revision(pack, 'final'))
const SITUATION = { situation: { engines: 'cold' }, values: {} }

/** The verdict on a text at an item, as it is heard without a doubt. */
function verdictOn(id: string, text: string): string {
  const { item } = findItem(pack, id)
  const figures = Object.fromEntries(
    saidFigures(item, SITUATION).flatMap((name): [string, Figure][] => {
      const figure = figureOf(set, name)
      return figure ? [[name, figure]] : []
    }),
  )
  const heard = transcriptOf(text)
  return judge({
    ...{ heard, alternatives: [], figures, challenge: item.challenge, phraseology: 'plain' },
    response: responseOf(item, SITUATION),
    ...(item.states && { states: item.states }),
  }).verdict
}

describe.each(Object.entries(TWIN_SAYINGS))('at %s', (id, { right, wrong }) => {
  test.each(right)('"%s" is right', (text) => {
    expect(verdictOn(id, text)).toBe('correct')
  })

  test.each(wrong)('"%s" is not', (text) => {
    expect(verdictOn(id, text)).not.toBe('correct')
  })
})
