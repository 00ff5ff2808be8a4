/** What the workers need to know how the words of a pack sound. */

import { wordsNeeded } from '../../../kernel/hearing/grammar.ts'
import type { Vocabulary } from '../../../kernel/hearing/hearable.ts'
import { fetchAllWords } from '../device/modelFiles.ts'
import { parseDictionary, pronounce, writeDictionary } from './dictionary.ts'

/**
 * Lines for the words of this vocabulary, out of `words`, the model's small dictionary; the large one, beside the model at
 * `base`, is fetched only for words that the small one does not have. A word in neither is left out.
 */
export async function dictionaryFor(vocabulary: Vocabulary, words: string, base: string): Promise<string> {
  const needed = wordsNeeded(vocabulary)
  const { pronunciations } = vocabulary
  const small = pronounce(needed, parseDictionary(words), pronunciations)
  if (small.missing.length === 0) return writeDictionary(small.entries)
  const all = await fetchAllWords(base).catch(() => '')
  return writeDictionary(pronounce(needed, parseDictionary(`${words}\n${all}`), pronunciations).entries)
}
