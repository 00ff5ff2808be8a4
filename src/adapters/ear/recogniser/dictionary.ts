/** Pronunciations: the recogniser's dictionary as text, cut to the words that are needed. Pure. */

import { PHONES, SOUND } from '../../../kernel/hearing/phones.ts'

/** Word -> its pronunciations, best known first. */
export type Dictionary = ReadonlyMap<string, readonly string[]>

/** The format of the CMU dictionary: `word PH PH`, further ones as `word(2) PH PH`, `;;` for remarks. */
export function parseDictionary(text: string): Dictionary {
  return byWord(
    text.split('\n').flatMap((line) => {
      const space = line.indexOf(' ')
      return space < 1 || line.startsWith(';;') ? [] : [[line.slice(0, space), line.slice(space + 1).trim()] as const]
    }),
  )
}

/** Further pronunciations, which stand as `word(2)`, to their words. */
export function byWord(entries: readonly (readonly [string, string])[]): Dictionary {
  const found = new Map<string, string[]>()
  for (const [entry, phones] of entries) {
    const word = entry.replace(/\(\d+\)$/, '')
    const known = found.get(word)
    if (known) known.push(phones)
    else found.set(word, [phones])
  }
  return found
}

export function writeDictionary(entries: readonly (readonly [string, string])[]): string {
  return entries.map(([word, phones]) => `${word} ${phones}\n`).join('')
}

/** Words of the trade that general dictionaries do not have, or pronounce in another way. */
const OWN: Dictionary = new Map(
  Object.entries({
    alfa: ['AE L F AH'],
    juliett: ['JH UW L IY EH T'],
    xray: ['EH K S R EY'],
    pitot: ['P IY T OW', 'P IY T AH T'],
    hectopascals: ['HH EH K T OW P AE S K AH L Z'],
    millibars: ['M IH L IH B AA R Z'],
    autobrake: ['AO T OW B R EY K'],
    autobrakes: ['AO T OW B R EY K S'],
    autothrottle: ['AO T OW TH R AA T AH L'],
    autothrust: ['AO T OW TH R AH S T'],
    deice: ['D IY AY S'],
    deicing: ['D IY AY S IH NG'],
    antiice: ['AE N T IY AY S', 'AE N T AY AY S'],
    squib: ['S K W IH B'],
    chocks: ['CH AA K S'],
    checklist: ['CH EH K L IH S T'],
    standby: ['S T AE N D B AY'],
    taxi: ['T AE K S IY'],
    taxiway: ['T AE K S IY W EY'],
    pushback: ['P UH SH B AE K'],
    wilco: ['W IH L K OW'],
  }),
)

const LETTER_SOUNDS: Readonly<Record<string, string>> = {
  ...{ a: 'EY', b: 'B IY', c: 'S IY', d: 'D IY', e: 'IY', f: 'EH F', g: 'JH IY', h: 'EY CH', i: 'AY', j: 'JH EY' },
  ...{ k: 'K EY', l: 'EH L', m: 'EH M', n: 'EH N', o: 'OW', p: 'P IY', q: 'K Y UW', r: 'AA R', s: 'EH S' },
  ...{ t: 'T IY', u: 'Y UW', v: 'V IY', w: 'D AH B AH L Y UW', x: 'EH K S', y: 'W AY', z: 'Z IY' },
}

/** An abbreviation, letter by letter; undefined where the word is not said in letters. */
function spelled(word: string): string | undefined {
  if (!/^[a-z]{1,4}$/.test(word)) return undefined
  return [...word].map((letter) => LETTER_SOUNDS[letter]).join(' ')
}

const PREFIXES: readonly (readonly [string, string])[] = [
  ['un', 'AH N'],
  ['re', 'R IY'],
  ['dis', 'D IH S'],
  ['de', 'D IY'],
  ['anti', 'AE N T IY'],
  ['auto', 'AO T OW'],
]
const SUFFIXES: readonly (readonly [string, string])[] = [
  ["'s", 'Z'],
  ['s', 'Z'],
  ['ed', 'D'],
  ['ing', 'IH NG'],
]

/** Put together of parts that are known: "unarmed", "autobrakes", "antiskid". */
function compounded(word: string, dictionary: Dictionary): string | undefined {
  for (const [prefix, sounds] of PREFIXES) {
    const rest = word.startsWith(prefix) ? dictionary.get(word.slice(prefix.length))?.[0] : undefined
    if (rest) return `${sounds} ${rest}`
  }
  for (const [suffix, sounds] of SUFFIXES) {
    const stem = word.endsWith(suffix) ? dictionary.get(word.slice(0, -suffix.length))?.[0] : undefined
    if (stem) return `${stem} ${sounds}`
  }
  return undefined
}

/** The shortest half of an invented name that is taken for a word: "tidewick" is "tide" and "wick". */
const SHORTEST_HALF = 3

/** Two words written as one; the longer the first, the likelier. */
function joined(word: string, dictionary: Dictionary): string | undefined {
  for (let at = word.length - SHORTEST_HALF; at >= SHORTEST_HALF; at--) {
    const halves = [dictionary.get(word.slice(0, at))?.[0], dictionary.get(word.slice(at))?.[0]]
    if (halves.every((half) => half !== undefined)) return halves.join(' ')
  }
  return undefined
}

/** Nobody says a longer word as one; looking for its parts would take longer the longer it is. */
const LONGEST_GUESS = 40

export interface Pronounced {
  readonly entries: readonly (readonly [word: string, phones: string])[]
  /** Words for which nothing is known. */
  readonly missing: readonly string[]
  /** Words that may be taken for what they are not: put together of two others, or spelled though they can be read. */
  readonly guessed: readonly string[]
}

/**
 * Pronunciations of these words, further ones of a word as `word(2)`. `own` goes before the dictionary: what a pack
 * says of its invented names.
 */
export function pronounce(
  words: Iterable<string>,
  dictionary: Dictionary,
  own: Readonly<Record<string, string>> = {},
): Pronounced {
  const entries: [string, string][] = []
  const missing: string[] = []
  const guessed: string[] = []
  for (const word of new Set(words)) {
    const spelling = spelled(word)
    const given = Object.hasOwn(own, word) ? [own[word] as string] : []
    const known = [...new Set([...given, ...(OWN.get(word) ?? []), ...(dictionary.get(word) ?? [])])]
    const guess = () =>
      word.length > LONGEST_GUESS ? undefined : (spelling ?? compounded(word, dictionary) ?? joined(word, dictionary))
    const ways = known.length > 0 ? known : [guess()].filter((way) => way !== undefined)
    if (ways.length === 0) missing.push(word)
    else if (known.length === 0 && (spelling ? isReadable(word) : !compounded(word, dictionary))) guessed.push(word)
    for (const [index, way] of ways.entries()) entries.push([index === 0 ? word : `${word}(${index + 1})`, way])
  }
  return { entries, missing, guessed }
}

/** "Amps" is a word, "qnh" is not. */
function isReadable(word: string): boolean {
  return word.length > 2 && /[aeiouy]/.test(word)
}

/** The word for any one sound. */
export const SOUND_ENTRIES: readonly (readonly [string, string])[] = PHONES.map((phone, index) => [
  index === 0 ? SOUND : `${SOUND}(${index + 1})`,
  phone,
])
