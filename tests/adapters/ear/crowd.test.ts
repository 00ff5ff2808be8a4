/** Short words of people in which the passes heard nothing, and words that are no answer. */

import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { createNodeRecogniser, nodeRescorer } from '../../../src/adapters/ear/nodeEar.ts'
import { vocabularyOfItems } from '../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const AUDIO = fileURLToPath(new URL('../../../audio/tuning/crowd/', import.meta.url))
const SPOKEN: readonly { readonly file: string; readonly word: string }[] = JSON.parse(
  readFileSync(`${AUDIO}manifest.json`, 'utf8'),
)
const ANSWERS = ['on', 'off', 'up', 'down', 'left', 'right']
const VOCABULARY = vocabularyOfItems(
  [{ challenge: 'pumps', responses: ANSWERS.map((answer) => ({ response: responseFrom(answer) })) }],
  [],
)

/** Its sound is not waited for, but a busy machine takes its time to hear it. */
const timeout = 900_000

it('are heard as they were said, and others not at all', { timeout }, async () => {
  const recogniser = await createNodeRecogniser(VOCABULARY, await nodeRescorer())
  const heard: string[] = []
  for (const { file } of SPOKEN) {
    const { text, doubt } = await recogniser.hear(`${AUDIO}${file}`, { shapes: [], yesNo: false })
    heard.push(doubt ? 'in doubt' : text)
  }
  expect(heard).toEqual(SPOKEN.map(({ word }) => (ANSWERS.includes(word) ? word : 'in doubt')))
})
