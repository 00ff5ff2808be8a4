/** A grammar that we made into states is searched as one that the library compiled from text (JSGF) by itself. */

import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule, { type Decoder as LibraryDecoder } from 'soundswallower'
import { beforeAll, expect, it } from 'vitest'
import { prepared } from '../../../../src/adapters/ear/audio/level.ts'
import { readWav } from '../../../../src/adapters/ear/audio/wav.ts'
import { MODEL_DIR, nodeFiles } from '../../../../src/adapters/ear/nodeEar.ts'
import { EarDecoder } from '../../../../src/adapters/ear/recogniser/decoder.ts'
import { parseDictionary, pronounce, SOUND_ENTRIES } from '../../../../src/adapters/ear/recogniser/dictionary.ts'
import { automatonOf } from '../../../../src/kernel/hearing/automaton.ts'
import { grammarOf, wordsNeeded } from '../../../../src/kernel/hearing/grammar.ts'
import { jsgfOf } from '../../../../src/kernel/hearing/jsgf.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'

const RESPONSE = '<trim> (set | checked)'
const vocabulary = vocabularyOfItems(
  [{ challenge: 'takeoff trim', responses: [{ response: responseFrom(RESPONSE) }] }],
  [],
)
const grammar = grammarOf({ shapes: [{ kind: 'trim', axis: 'pitch' }], yesNo: false }, vocabulary)

let decoder: EarDecoder
beforeAll(async () => {
  decoder = await EarDecoder.create(await createModule({ print: () => {}, printErr: () => {} }), nodeFiles(), 'plain')
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  decoder.add(SOUND_ENTRIES)
  decoder.add(pronounce(wordsNeeded(vocabulary), dictionary).entries)
  return () => decoder.free()
})

it.each([
  ['five-point-two-up-set', 'five point two up set'],
  ['five-point-two-down', 'five point two down'],
])('%s', async (name, text) => {
  const wav = readWav(await readFile(fileURLToPath(new URL(`../../../../audio/check/${name}.wav`, import.meta.url))))
  if ('problem' in wav) throw new Error(wav.problem)
  const pcm = prepared(1, -70)(wav.pcm)
  const { decoder: library } = decoder as unknown as { decoder: LibraryDecoder }
  library.set_grammar(jsgfOf(grammar))
  const theirs = decoder.decode(pcm)
  decoder.setGrammar(automatonOf(grammar))
  const ours = decoder.decode(pcm)
  expect(ours.text).toBe(text)
  expect(ours.text).toBe(theirs.text)
  expect(Math.abs(ours.score - theirs.score)).toBeLessThan(Math.abs(theirs.score) * 1e-3)
})
