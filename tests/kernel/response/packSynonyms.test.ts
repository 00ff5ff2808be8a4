/** An author's own synonyms in the judge: they say what their word says, and what excludes it excludes them. */

import { describe, expect, it } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { opposites, STATE_WORDS } from '../../../src/kernel/response/lexicon.ts'
import type { JudgeInput, Verdict } from '../../../src/kernel/response/model.ts'
import type { Synonyms } from '../../../src/kernel/response/packSynonyms.ts'
import { judgeReadBack } from '../../../src/kernel/response/readBack.ts'
import { type Response, responseFrom } from '../../../src/kernel/response/response.ts'
import { sayResponse } from '../../../src/kernel/response/sentence.ts'

const SYNONYMS: Synonyms = {
  closed: ['buttoned up', 'zipped'],
  locked: ['dogged'],
  open: ['agape'],
  away: ['vamoosed'],
  squawk: ['parrot'],
}
const judged = (response: string, heard: string, more: Partial<JudgeInput> = {}) =>
  judge({ response: responseFrom(response, SYNONYMS), figures: {}, heard: transcriptOf(heard), ...more })
const verdict = (...args: Parameters<typeof judged>) => judged(...args).verdict

describe('an author’s synonym', () => {
  const DOORS = { challenge: 'doors', states: [['closed'], ['open']] }

  it.each([
    ['closed', 'buttoned up'],
    ['closed', 'doors are all buttoned up'],
    ['closed', 'okay, zipped, no lights'],
    ['closed and locked', 'zipped and dogged'],
    ['closed and locked', 'closed and dogged'],
    ['closed and locked', 'buttoned up, locked'],
    // Within a line each says the same.
    ['zipped', 'closed'],
    ['zipped', 'buttoned up'],
  ])('is right for `%s`: "%s"', (response, heard) => {
    expect(verdict(response, heard, DOORS)).toBe('correct')
  })

  it.each([
    ['closed', 'agape'],
    ['closed', 'not buttoned up'],
    ['closed', 'not zipped'],
    ['closed and locked', 'agape and dogged'],
    ['closed and locked', 'not zipped and dogged'],
    ['open', 'buttoned up'],
    ['open', 'zipped'],
  ])('is negative for `%s`: "%s", whether the states are listed or not', (response, heard) => {
    expect(verdict(response, heard, DOORS)).toBe('negative')
    expect(verdict(response, heard, { challenge: 'doors' })).toBe('negative')
  })

  it('is not known without the author', () => {
    const heard = transcriptOf('zipped')
    expect(judge({ ...DOORS, response: responseFrom('closed'), figures: {}, heard }).verdict).toBe('sayAgain')
  })

  it('leaves half an answer half, and a part of it nothing', () => {
    expect(verdict('closed and locked', 'zipped')).not.toBe('correct')
    expect(verdict('closed and locked', 'zipped and unlocked')).not.toBe('correct')
    expect(verdict('closed', 'buttoned', DOORS)).toBe('sayAgain')
    expect(verdict('closed', 'up', DOORS)).not.toBe('correct')
  })

  it('does not turn what stands in it into another state', () => {
    expect(verdict('closed', 'buttoned up, sun visors are down', DOORS)).not.toBe('negative')
  })

  it('said of another thing is that thing’s', () => {
    expect(verdict('away', 'vamoosed', { challenge: 'tug' })).toBe('correct')
    expect(verdict('away', 'gremlins vamoosed', { challenge: 'tug' })).not.toBe('correct')
  })

  it('is asked for in the words of the list where phraseology is verbatim', () => {
    expect(judged('closed', 'zipped', { ...DOORS, phraseology: 'verbatim' })).toMatchObject({ because: 'form' })
    expect(verdict('closed', 'closed', { ...DOORS, phraseology: 'verbatim' })).toBe('correct')
  })

  it('is not what Otherseat says itself', () => {
    expect(sayResponse(responseFrom('closed and locked', SYNONYMS), {}, 'plain')).toBe('closed and locked')
  })
})

describe('an author’s name for what is read back', () => {
  const element = (id: string, text: string) => ({ id, response: responseFrom(text, SYNONYMS) })
  const ELEMENTS = [element('squawk', '[squawk] <code>'), element('qnh', '[qnh] <qnh>')]
  const figures = {
    code: { kind: 'digits', length: 4, value: '4271' },
    qnh: { kind: 'altimeter', unit: 'hPa', value: 1013 },
  } as const

  it.each([
    ['parrot four two seven one, q n h one zero one three', 'correct'],
    ['q n h one zero one three, parrot four two seven one', 'correct'],
    ['parrot four two seven two, q n h one zero one three', 'negative'],
    ['parrot four two seven one', 'incomplete'],
  ])('"%s" is %s', (heard, expected) => {
    expect(judgeReadBack(ELEMENTS, { heard: transcriptOf(heard), figures }).verdict).toBe(expected)
  })
})

describe('opposites of a word are opposites of its synonyms', () => {
  const TAILS = ['%', "yep, it's % now, no flags"]

  it('over all pairs of states, also in several words and where both are of the author', () => {
    const failed: string[] = []
    let tried = 0
    const judgeAll = (response: Response, said: string, expected: Verdict) => {
      for (const tail of TAILS) {
        tried++
        const heard = transcriptOf(tail.replace('%', said))
        const { verdict } = judge({ challenge: 'valve', response, figures: {}, heard })
        if (verdict !== expected) failed.push(`${response.text}: "${heard.text}" is ${verdict}`)
      }
    }
    for (const word of STATE_WORDS) {
      for (const other of opposites(word)) {
        // One author has words for both, another one only for what is wrong.
        const against = { [other]: ['quaxed', 'fully quoxed'] }
        const both = { [word]: ['zibbed', 'well zobbed'], ...against }
        for (const synonyms of [both, against]) {
          const response = responseFrom(word, synonyms)
          for (const said of against[other] ?? []) judgeAll(response, said, 'negative')
          for (const said of synonyms === both ? ['zibbed', 'well zobbed'] : []) judgeAll(response, said, 'correct')
          for (const said of synonyms === both ? ['not zibbed', 'not well zobbed'] : [])
            judgeAll(response, said, 'negative')
        }
      }
    }
    expect(failed).toEqual([])
    expect(tried).toBeGreaterThan(2_000)
  })
})
