import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, it } from 'vitest'
import { createNodeRecogniser, type NodeRecogniser, nodeRescorer } from '../../../src/adapters/ear/nodeEar.ts'
import { sameWords } from '../../../src/adapters/ear/utterance/agreement.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'
import { DIGIT_WORDS } from '../../../src/kernel/numbers/words.ts'
import { VALUE_ITEMS, WORD_ITEMS } from '../../bench/earCases.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const AUDIO = fileURLToPath(new URL('../../../audio/check/', import.meta.url))
interface Line {
  readonly file: string
  readonly words: string
  readonly kind?: string
}
const manifest = (path: string): readonly Line[] => JSON.parse(readFileSync(`${AUDIO}${path}manifest.json`, 'utf8'))

let recogniser: NodeRecogniser
beforeAll(async () => {
  recogniser = await createNodeRecogniser(vocabularyOfItems([...WORD_ITEMS, ...VALUE_ITEMS], []), await nodeRescorer())
}, 60_000)

/** "eighty four six" and "eight four six" are one code: judging says whether it is the one that was said. */
const isCode = (words: string, heard: string) => {
  const value = words
    .split(' ')
    .map((word) => (word === 'oh' ? 0 : DIGIT_WORDS.indexOf(word as (typeof DIGIT_WORDS)[number])))
    .join('')
  return (
    judgeText({ response: '<x>', figures: { x: { kind: 'digits', length: value.length, value } }, heard }).verdict ===
    'correct'
  )
}

const hear = (file: string, shapes: readonly KindSpec[]) => recogniser.hear(`${AUDIO}${file}`, { shapes, yesNo: false })

/** In one of the check voices each. */
const SPOKEN: readonly (readonly [file: string, spec: KindSpec | undefined, words: string])[] = [
  ['five-point-two-up-set', { kind: 'trim', decimals: 1 }, 'five point two up set'],
  ['five-point-two-down', { kind: 'trim', decimals: 1 }, 'five point two down'],
  ['four-two-seven-one', { kind: 'digits', length: 4 }, 'four two seven one'],
  ['one-zero-one-three', { kind: 'altimeter', unit: 'hPa' }, 'one zero one three'],
  ['zero-eight-nine', { kind: 'heading' }, 'zero eight nine'],
  ['closed-and-unlocked', undefined, 'closed and unlocked'],
  ['brake-released', undefined, 'brake released'],
  ['both-off', undefined, 'both off'],
]

describe('the ear, on recordings that it was not tuned on', () => {
  it('hears each as it was said', { timeout: 110_000 }, async () => {
    const heard: string[] = []
    for (const [file, spec] of SPOKEN) {
      const { text, doubt } = await hear(`${file}.wav`, spec ? [spec] : [])
      heard.push(doubt ? `${doubt}: ${text}` : text)
    }
    const right = SPOKEN.map(([, , words], at) => (sameWords(heard[at] ?? '', words) ? words : heard[at]))
    expect(right).toEqual(SPOKEN.map(([, , words]) => words))
  })

  it('hears most of what people say in digits, and of the rest asks again', { timeout: 110_000 }, async () => {
    const lines = manifest('human/')
      .filter(({ kind }) => kind === 'digits')
      .slice(0, 12)
    let right = 0
    for (const { file, words } of lines) {
      const heard = await hear(`human/${file}`, [{ kind: 'digits', length: words.split(' ').length }])
      if (heard.doubt) continue
      expect(isCode(words, heard.text), `${words} heard as ${heard.text}`).toBe(true)
      right++
    }
    expect(right).toBeGreaterThanOrEqual(9)
  })

  it('takes no sentence for a state', { timeout: 60_000 }, async () => {
    for (const name of ['the-weather-looks-rather-nice-over-there-today', 'we-might-get-a-coffee-after-this-one']) {
      const heard = await hear(`${name}.wav`, [])
      expect(heard.doubt, heard.text).toBeDefined()
    }
  })
})
