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
import {
  alternatives,
  type Grammar,
  optional,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from '../../../../src/kernel/grammarRules.ts'
import { automatonOf } from '../../../../src/kernel/hearing/automaton.ts'
import { grammarOf, wordsNeeded } from '../../../../src/kernel/hearing/grammar.ts'
import { jsgfOf } from '../../../../src/kernel/hearing/jsgf.ts'
import { vocabularyOfItems } from '../../../../src/kernel/hearing/vocabulary.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'

const vocabulary = vocabularyOfItems(
  [{ challenge: 'takeoff trim', responses: [{ response: responseFrom('<trim> (set | checked)') }] }],
  [],
)
const TRIM = grammarOf({ shapes: [{ kind: 'trim', axis: 'pitch', decimals: 1 }], yesNo: false }, vocabulary)

let decoder: EarDecoder
beforeAll(async () => {
  decoder = await EarDecoder.create(await createModule({ print: () => {}, printErr: () => {} }), nodeFiles(), 'plain')
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  decoder.add(SOUND_ENTRIES)
  decoder.add(pronounce(wordsNeeded(vocabulary), dictionary).entries)
  return () => decoder.free()
})

async function both(name: string, grammar: Grammar) {
  const wav = readWav(await readFile(fileURLToPath(new URL(`../../../../audio/check/${name}.wav`, import.meta.url))))
  if ('problem' in wav) throw new Error(wav.problem)
  const pcm = prepared(1, -70)(wav.pcm)
  const { decoder: library } = decoder as unknown as { decoder: LibraryDecoder }
  library.set_grammar(jsgfOf(grammar))
  const theirs = decoder.decode(pcm)
  decoder.setGrammar(automatonOf(grammar))
  return { theirs, ours: decoder.decode(pcm) }
}

const SAID = sequence('four', 'two', 'seven', 'one')

it.each<[string, RuleExpansion]>([
  ['one text', SAID],
  ['two that are alike', alternatives(SAID, 'set')],
  ['an unlikely one', alternatives(weighted(1, SAID), weighted(99, 'set'))],
  ['an unlikely rule', alternatives(weighted(1, rule('said')), weighted(99, 'set'))],
  ['what may follow', sequence(SAID, optional('set'))],
  ['one of several that may follow', sequence(SAID, optional(alternatives('set', 'one')))],
  ['a choice in the middle', sequence('four', alternatives('two', 'set', 'seven'), 'seven', 'one')],
])('the very score for %s', async (_, expansion) => {
  const rules = [
    { name: 'said', expansion: SAID },
    { name: 'heard', expansion },
  ]
  const { theirs, ours } = await both('four-two-seven-one', { start: 'heard', rules })
  expect(ours).toEqual(theirs)
})

// Where much may follow a word, fewer states also have fewer neighbouring sounds to choose among.
it.each([
  ['five-point-two-up-set', 'five point two up set'],
  ['five-point-two-down', 'five point two down'],
])('the same words for %s in the grammar of a trim, at nearly the same score', async (name, text) => {
  const { theirs, ours } = await both(name, TRIM)
  expect([ours.text, theirs.text]).toEqual([text, text])
  expect(Math.abs(ours.score - theirs.score)).toBeLessThan(Math.abs(theirs.score) * 0.03)
})
