/** From responses to the phrases and words that may be spoken for them, contraries included; values are left to the kinds. */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import { DIGIT_WORDS } from '../numbers/words.ts'
import type { Item } from '../pack/checklist.ts'
import { isStateWord, opposites } from '../response/lexicon.ts'
import { linesOf, statesWith } from '../response/packSynonyms.ts'
import { phraseStatesOf } from '../response/phraseStates.ts'
import { valueWords } from './numberShapes.ts'

/** Words that stand beside any answer. */
const ALWAYS = ['not', 'and', 'both', 'set', 'checked']

/** Lower case words of a text, numerals as digit words: "V1" is "v one". */
export const spokenWords = (text: string): string[] => wordsOf(tokensOf(text))

/** The same for a text that was cut into tokens. */
export function wordsOf(tokens: readonly Token[]): string[] {
  return tokens.flatMap(({ text }) =>
    /^\d+$/.test(text) ? [...text].map((digit) => DIGIT_WORDS[Number(digit)] ?? '') : [text],
  )
}

export const phrase = (text: string) => spokenWords(text).join(' ')
export const unique = (list: readonly string[]) => [...new Set(list)].filter((text) => text !== '').sort()

/** What the vocabulary needs of an item. */
export type Answered = Pick<Item, 'challenge' | 'responses'> & { readonly states?: Item['states'] | undefined }

export function answersOf(items: readonly Answered[], specs: readonly KindSpec[]) {
  const phrases = unique(items.flatMap((item) => itemPhrases(item)).flatMap(withContraries))
  const positions = specs.flatMap((spec) => (kindOf(spec).options ? valueWords(spec) : []))
  const besideValues = items
    .flatMap((item) => itemPhrases(item, true))
    .flatMap((text) => text.split(' '))
    .flatMap(withContraries)
  const words = (texts: readonly string[]) => unique(texts.flatMap((text) => text.split(' ')))
  return {
    phrases,
    besideValues: words([...ALWAYS, ...besideValues, ...positions]),
    words: words([...ALWAYS, ...phrases, ...positions.flatMap(contraries)]),
  }
}

/** Phrases of an item's responses without values and of its states, or those beside its values alone. */
function itemPhrases({ responses, states = [] }: Answered, besideValues = false): string[] {
  const own = responses.flatMap(({ response }) => (response.figures.length > 0 === besideValues ? response : []))
  const texts = own.flatMap(({ wordings }) => wordings)
  // What an author says for a state, its contrary or neither is heard as well as any other state, and as well denied.
  const all = own.flatMap(({ words, synonyms }) => statesWith(besideValues ? [] : states, words, synonyms).flat())
  const said = own.flatMap(({ synonyms }) => linesOf(synonyms).flat())
  const denied = said.filter((text) => texts.includes(text) || all.includes(text)).map((text) => `not ${text}`)
  return [...texts, ...(besideValues ? [] : states.flat()), ...all, ...denied].map(phrase).flatMap(withPhraseStates)
}

/** "Hold short" brings "holding short" and "cross". */
function withPhraseStates(text: string): string[] {
  const { same, against } = phraseStatesOf(text.split(' '))
  return [text, ...[...same, ...against].map((words) => words.join(' '))]
}

/** More forms of one phrase than this are left to the single words. */
const MOST_FORMS = 40

/** The phrase, and with each of its words turned into the contrary or denied: "closed and unlocked", "not closed and locked". */
function withContraries(text: string): string[] {
  let forms: string[] = ['']
  for (const word of text.split(' ')) {
    const ways = [word, ...contraries(word), ...(isStateWord(word) ? [`not ${word}`] : [])]
    forms = forms.flatMap((form) => ways.map((way) => `${form} ${way}`.trim())).slice(0, MOST_FORMS)
  }
  return forms
}

/**
 * "open" brings "closed"; "checked" brings "unchecked". Of each contrary only the form of a state: orders
 * such as "release" are hardly said as an answer, and sound too much like one.
 */
function contraries(word: string): string[] {
  const negated = word.endsWith('ed') && !/^(un|dis|re)/.test(word) ? [`un${word}`] : []
  const against = [...opposites(word)]
  const isOrder = (text: string) => against.some((other) => other === `${text}d` || other === `${text}ed`)
  return [...against.filter((text) => !isOrder(text) && !UNSAID.has(text)), ...negated]
}

/** Contraries that nobody says, and that sound like something else: "and ready" is heard as "unready". "Not ready" stays. */
const UNSAID: ReadonlySet<string> = new Set(['unset', 'unready'])
