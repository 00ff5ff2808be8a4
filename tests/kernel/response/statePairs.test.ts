/** No state is taken for another that excludes it, whatever is said beside it: all pairs of the tables and of the packs. */

import { describe, expect, it } from 'vitest'
import { listsOf } from '../../../src/kernel/pack/place.ts'
import { hypothesesOf } from '../../../src/kernel/response/hypotheses.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { opposites, STATE_WORDS } from '../../../src/kernel/response/lexicon.ts'
import { SYNONYMS } from '../../../src/kernel/response/synonyms.ts'
import { judgeText } from '../../corpus/judgeText.ts'
import { packAt } from '../figures/marram.ts'

const TAILS = [
  '%',
  '%, no flags',
  "yep, it's % now",
  '% and checked, in the green',
  'okay, %, as per the card',
  '%, both sides',
]

const saidWith = (word: string) => TAILS.map((tail) => tail.replace('%', word))

describe('a state is never taken for one that excludes it', () => {
  it('in the table of opposites, with its synonyms', () => {
    const accepted: string[] = []
    let tried = 0
    for (const word of STATE_WORDS) {
      const others = new Set([...opposites(word)].flatMap((other) => [other, ...alike(other, word)]))
      for (const response of [word, `valve ${word}`]) {
        for (const other of others) {
          for (const heard of saidWith(other)) {
            tried++
            const states = [[word], [other]]
            if (judgeText({ challenge: 'valve', response, states, figures: {}, heard }).verdict === 'correct')
              accepted.push(`${response}: ${heard}`)
          }
        }
      }
    }
    expect(accepted).toEqual([])
    expect(tried).toBeGreaterThan(3_000)
  })
})

describe.each(['marram', 'pair'])('a state that an item of %s excludes', (id) => {
  it('is never taken for its own', async () => {
    const pack = await packAt(`checklists/${id}`)
    const accepted: string[] = []
    let tried = 0
    for (const item of listsOf(pack).flatMap(({ entries }) => entries)) {
      if (item.type !== 'item') continue
      for (const { response } of item.responses) {
        if (response.figures.length > 0) continue
        const own = [...response.words].filter((word) => word !== 'right' && word !== 'left')
        const others = new Set(own.flatMap((word) => [...opposites(word)]).filter((word) => !own.includes(word)))
        const excluded = (item.states ?? []).flat().filter((state) => state.split(' ').some((word) => others.has(word)))
        for (const heard of [...others, ...excluded].flatMap(saidWith)) {
          tried++
          const { challenge, states = [] } = item
          const { verdict } = judge({ challenge, response, states, figures: {}, ...hypothesesOf({ text: heard }) })
          if (verdict === 'correct') accepted.push(`${item.id}: ${heard}`)
        }
      }
    }
    expect(accepted).toEqual([])
    expect(tried).toBeGreaterThan(50)
  })
})

/** Other words for a state, unless they are words for the one that is asked for. */
const alike = (word: string, asked: string) =>
  SYNONYMS.filter((line) => line.includes(word) && !line.includes(asked))
    .flat()
    .filter((each) => !SYNONYMS.some((line) => line.includes(each) && line.includes(asked)))
