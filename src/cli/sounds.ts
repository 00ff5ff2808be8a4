/** Words of a pack that the ear cannot hear, or hears otherwise than meant, and alternatives that sound alike: advice. */

import { join } from 'node:path'
import { type Pronounced, pronounced } from '../adapters/ear/nodeEar.ts'
import { wordsNeeded } from '../kernel/hearing/grammar.ts'
import { spokenWords } from '../kernel/hearing/phrases.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { kindOf } from '../kernel/kinds/kind.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { edits } from '../packs/nearest.ts'
import { valueAt } from '../packs/shapeKeys.ts'
import { type Path, parseSource, type Source } from '../packs/source.ts'

export async function soundAdvice(pack: Pack, dir: string): Promise<Problem[]> {
  const sounds = await pronounced(vocabularyOf(pack))
  const found = [...wordAdvice(pack, sounds), ...(await likenessAdvice(pack))]
  return found.map(({ place, ...problem }) => {
    return { ...problem, ...(place && { place: { ...place, file: join(dir, place.file) } }) }
  })
}

const GIVE = 'give its sounds under pronunciations in pack.yaml'

/** Each word at the first place where it stands in the pack's texts. */
function wordAdvice(pack: Pack, { missing, guessed, entries }: Pronounced): Problem[] {
  const demanded = wordsDemanded(pack)
  const advice = (word: string, message: string): Problem => {
    const place = placeOf(pack.texts, word)
    return { code: 'word.unpronounced', message, severity: 'advice', ...(place && { place }) }
  }
  const ways = new Map(entries)
  return [
    ...missing.map((word) => {
      const none = `${quoted(word)} is in no dictionary`
      if (demanded.has(word)) return advice(word, `${none} and cannot be heard; say it otherwise, or ${GIVE}`)
      return advice(
        word,
        `${none}; here it is only spoken, and the answer is heard, but not "recheck" or "confirm" with it: ${GIVE}`,
      )
    }),
    ...guessed.map((word) =>
      advice(
        word,
        `${quoted(word)} is in no dictionary; it is listened for as ${ways.get(word)}: where that is wrong, ${GIVE}`,
      ),
    ),
  ]
}

/** Words that the pilot has to say for the run to go on; not those that only name an item or a figure. */
function wordsDemanded(pack: Pack): ReadonlySet<string> {
  const vocabulary = vocabularyOf(pack)
  const others = vocabulary.others.filter((text) => !/^(recheck|confirm|cross check) /.test(text))
  return new Set(wordsNeeded({ ...vocabulary, others, challenges: [] }))
}

/** The first place where the word stands by itself, in any case; comments do not count. */
function placeOf(texts: Pack['texts'], word: string): Problem['place'] {
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

/** Ways to say something, of which each means another thing. */
interface Alternatives {
  readonly file: 'figures.yaml' | 'procedures.yaml' | 'pack.yaml'
  readonly meanings: readonly { readonly texts: readonly string[]; readonly path: Path }[]
}

async function likenessAdvice(pack: Pack): Promise<Problem[]> {
  const all = alternativesIn(pack)
  const words = new Set(all.flatMap(({ meanings }) => meanings.flatMap(({ texts }) => texts.flatMap(spokenWords))))
  const { entries } = await pronounced([...words], pack.pronunciations)
  const ways = new Map(entries)
  const soundsOf = (text: string) => {
    const each = spokenWords(text).map((word) => ways.get(word)?.split(' '))
    return each.every((one) => one !== undefined) ? each.flat() : []
  }
  const sources = new Map<string, Source>()
  const sourceOf = (file: string) => {
    const source = sources.get(file) ?? parseSource(file, pack.texts[file] ?? '')
    sources.set(file, source)
    return source
  }
  return all.flatMap(({ file, meanings }) => {
    const texts = meanings.flatMap(({ texts, path }, meaning) =>
      texts.map((text) => ({ text, sounds: soundsOf(text), path, meaning })),
    )
    return texts.flatMap((one, index) => {
      const like = texts.slice(0, index).find((other) => other.meaning !== one.meaning && isLike(one, other))
      if (!like) return []
      const message = `${quoted(one.text)} sounds much like ${quoted(like.text)}, which means another thing here; choose words that nobody takes for each other`
      return { code: 'word.alike', message, severity: 'advice' as const, place: sourceOf(file).place(one.path) }
    })
  })
}

interface Sounding {
  readonly text: string
  readonly sounds: readonly string[]
}

/** All sounds the same but one at most. Of the same text other advice speaks. */
function isLike(one: Sounding, other: Sounding): boolean {
  if (one.text.toLowerCase() === other.text.toLowerCase()) return false
  if (Math.min(one.sounds.length, other.sounds.length) < 2) return false
  // Each sound as one letter, so that they are compared like letters.
  const letters = new Map<string, string>()
  const written = ({ sounds }: Sounding) => {
    for (const sound of sounds) if (!letters.has(sound)) letters.set(sound, String.fromCharCode(0x4e00 + letters.size))
    return sounds.map((sound) => letters.get(sound)).join('')
  }
  return edits(written(one), written(other), 2) < 2
}

function alternativesIn(pack: Pack): Alternatives[] {
  const options = Object.values(pack.figures.declarations).map(({ name, spec }): Alternatives => {
    const ways = Object.entries(kindOf(spec).options?.(spec) ?? {})
    const meanings = ways.map(([option, texts]) => ({ texts, path: ['figures', name, 'options', option] }))
    return { file: 'figures.yaml', meanings: 'options' in spec ? meanings : [] }
  })
  const situations = pack.situations.map(
    ({ name, options }): Alternatives => ({
      file: 'pack.yaml',
      meanings: options.map(({ value, say }) => ({
        texts: say.wordings,
        path: ['situations', name, 'options', value, 'say'],
      })),
    }),
  )
  return [...options, ...situations, ...inProcedures(pack)]
}

function inProcedures(pack: Pack): Alternatives[] {
  const file = 'procedures.yaml'
  const written = parseSource(file, pack.texts[file] ?? '').value
  return pack.phases.flatMap(({ activities }, phase) =>
    activities.flatMap((activity, index): Alternatives[] => {
      const path: Path = ['phases', phase, 'activities', index]
      if (activity.type === 'list') {
        const places = placesOfItems(written, path)
        return activity.entries.flatMap((entry) => {
          const [, name = ''] = entry.id.split('.')
          const number = places.get(name)
          // Of an item that is asked several times all states are the same.
          places.delete(name)
          if (entry.type !== 'item' || !entry.states || number === undefined) return []
          const at: Path = [...path, 'entries', number, 'states']
          return { file, meanings: entry.states.map((texts, state) => ({ texts, path: [...at, state] })) }
        })
      }
      if (activity.type !== 'watch') return []
      const { calls, abnormal } = activity
      const waysOf = (key: string) => (one: (typeof calls | typeof abnormal)[number], number: number) => ({
        texts: one.say.wordings,
        path: [...path, key, number, 'say'],
      })
      return [{ file, meanings: [...calls.map(waysOf('calls')), ...abnormal.map(waysOf('abnormal'))] }]
    }),
  )
}

/** Where each item of a list stands among its entries as they were written, notes among them. */
function placesOfItems(written: unknown, path: Path): Map<string, number> {
  const entries = valueAt(written, [...path, 'entries'])
  const names = (Array.isArray(entries) ? entries : []).map((entry: { readonly item?: unknown }) => entry?.item)
  return new Map(names.flatMap((name, number) => (typeof name === 'string' ? [[name, number] as const] : [])))
}
