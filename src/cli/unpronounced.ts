/** Words of a pack that the ear cannot hear, since no dictionary has them: advice for who writes the pack. */

import { join } from 'node:path'
import { MOST_TOLD } from '../kernel/bounds.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'

/** Each at the first place where it stands in the pack's texts. */
export async function unpronouncedWords(pack: Pack, dir: string): Promise<Problem[]> {
  const ear = await import('../adapters/ear/nodeEar.ts')
  const missing = await ear.unpronounced(vocabularyOf(pack))
  const advice = (word: string, message: string): Problem => {
    const place = placeOf(pack.texts, word)
    return {
      code: 'word.unpronounced',
      message,
      severity: 'advice',
      ...(place && { place: { ...place, file: join(dir, place.file) } }),
    }
  }
  const [next, ...rest] = missing.slice(MOST_TOLD)
  return [
    ...missing.slice(0, MOST_TOLD).map((word) => advice(word, `${quoted(word)} ${NO_WAY_TO_HEAR}`)),
    ...(next === undefined ? [] : [advice(next, `and ${rest.length + 1} more words are in no dictionary`)]),
  ]
}

const NO_WAY_TO_HEAR =
  'is in no dictionary and cannot be heard; say it otherwise, or give its sounds under pronunciations in pack.yaml'

/** The first place where the word stands by itself, in any case; comments do not count. */
function placeOf(texts: Pack['texts'], word: string): NonNullable<Problem['place']> | undefined {
  for (const [file, text] of Object.entries(texts)) {
    for (const [index, line] of text.split('\n').entries()) {
      const words = line.replace(/(^|\s)#.*/, '').matchAll(/[a-z]+(?:'[a-z]+)*/gi)
      for (const found of words) {
        if (found[0].toLowerCase() === word) return { file, line: index + 1, column: found.index + 1 }
      }
    }
  }
  return undefined
}
