/** A pack -> the one vocabulary that serves all its items: what they say, and the contrary of it. */

import type { FigureDeclaration } from '../figures/pack.ts'
import { sourceAloud, sourceWords } from '../figures/settle.ts'
import type { KindSpec } from '../kinds/kind.ts'
import { tokensOf } from '../numbers/tokens.ts'
import { DIGIT_WORDS } from '../numbers/words.ts'
import { isStateWord, opposites } from '../response/lexicon.ts'
import { figuresOf, parseResponse, wordsOf } from '../response/parse.ts'
import type { Activity, Item, List, Pack, WatchCall } from '../run/checklist.ts'
import { COMMAND_PHRASES } from './commandPhrases.ts'
import type { Talk, Vocabulary } from './hearable.ts'
import { valueWords } from './numberShapes.ts'
import { nameWords } from './spelling.ts'

/** Words that stand beside any answer. */
const ALWAYS = ['not', 'and', 'both', 'set', 'checked']

/** What ends a flow. */
const FLOW_DONE = [
  ...['done', 'all done', 'complete', 'flow complete', 'flow done', 'flow is complete', 'step done'],
  ...['read the flow', 'read me the steps', 'next step'],
]

/** What a pilot says to something that need not be read back. */
export const ACKNOWLEDGEMENTS = ['roger', 'wilco', 'copied', 'received', 'thank you']

/** Lower case words of a text, numerals as digit words: "V1" is "v one". */
export function spokenWords(text: string): string[] {
  return tokensOf(text).flatMap((token) =>
    /^\d+$/.test(token.text) ? [...token.text].map((digit) => DIGIT_WORDS[Number(digit)] ?? '') : [token.text],
  )
}
const phrase = (text: string) => spokenWords(text).join(' ')
const unique = (list: readonly string[]) => [...new Set(list)].filter((text) => text !== '').sort()

/** Everything that may be said while this pack is run; holds no figure's value. Order does not matter. */
export function vocabularyOf(pack: Pack): Vocabulary {
  const activities = pack.phases.flatMap((phase) => phase.activities)
  const watches = activities.filter((activity) => activity.type === 'watch')
  const flows = activities.filter((activity) => activity.type === 'flow')
  const lists = activities.filter((activity) => activity.type === 'list')
  const items = lists.flatMap((list) => list.entries).filter((entry) => entry.type === 'item')
  const lines = lists.flatMap((list) => list.entries).filter((entry) => entry.type === 'line')
  const figures = Object.values(pack.figures.declarations)
  const answers = answersOf(
    items,
    figures.map(({ spec }) => spec),
  )
  const calls = watches.flatMap((watch) => watch.calls)
  return {
    ...answers,
    besideValues: unique([...answers.besideValues, ...calls.filter(({ value }) => value).flatMap(wordsOfCall)]),
    challenges: unique(items.map((item) => phrase(item.challenge))),
    lists: unique(lists.flatMap(listNames)),
    others: unique([
      ...FLOW_DONE,
      ...watches.flatMap(({ begins }) => begins.map(phrase)),
      ...[...calls.filter(({ value }) => !value), ...watches.flatMap(({ abnormal }) => abnormal)].flatMap(({ say }) =>
        say.flatMap(waysOf),
      ),
      ...flows.flatMap(({ steps }) => steps.flatMap(({ say }) => say.map(phrase))),
      ...(pack.quirks ?? []).flatMap(({ named }) => named.map((name) => `remark ${phrase(name)}`)),
      ...lines.flatMap((line) => line.say.map(phrase)),
      ...pack.situations.flatMap(({ options }) => options.flatMap(({ say }) => say.map(phrase))),
      ...figures.flatMap(({ label, alsoCalled }) => [label, ...alsoCalled].map((name) => `confirm ${phrase(name)}`)),
      ...figures.flatMap(crossChecks),
    ]),
    commands: COMMAND_PHRASES,
    talk: talkOf(pack, activities),
  }
}

/** Words that a call puts around its value. */
const wordsOfCall = ({ say }: WatchCall) => say.flatMap(waysOf).flatMap((text) => text.split(' '))

/** The ways to say a call; of one with a value the pieces around it. */
function waysOf(say: string): string[] {
  const parsed = parseResponse(say)
  return 'response' in parsed ? wordsOf(parsed.response).map(phrase) : []
}

/** Words of calls, read-backs, orders and briefings. */
function talkOf(pack: Pack, activities: readonly Activity[]): Talk {
  const turns = activities.flatMap((activity) => (activity.type === 'exchange' ? activity.turns : []))
  const briefings = activities.filter((activity) => activity.type === 'briefing')
  const elements = turns.flatMap((turn) => turn.elements)
  const said = [
    ...turns.flatMap(({ label, calls, states }) => (calls === undefined ? [] : [answered(label, [calls], states)])),
    ...elements.flatMap(({ label, readBack }) => (readBack === undefined ? [] : [answered(label, [readBack])])),
    ...briefings.flatMap(({ topics }) => topics.map(({ label, say }) => answered(label, say))),
  ]
  const specs = Object.values(pack.figures.declarations).map(({ spec }) => spec)
  return {
    ...answersOf(said, specs),
    others: unique([
      ...ACKNOWLEDGEMENTS,
      ...elements.flatMap(({ label, alsoCalled }) => [label, ...alsoCalled].map((name) => `say again ${phrase(name)}`)),
      ...briefings.flatMap(({ ends }) => ends.map(phrase)),
    ]),
  }
}
const answered = (challenge: string, texts: readonly string[], states?: Item['states']): Answered => ({
  challenge,
  responses: texts.map((text) => ({ text })),
  ...(states && { states }),
})

/** A figure alone is read off the source that is asked first; the others have to be named. */
function crossChecks({ label, stated }: FigureDeclaration): string[] {
  const sources = stated?.sources ?? []
  return sources.map((source) => {
    const named = source === sourceAloud(sources) ? '' : ` from the ${sourceWords(source)}`
    return phrase(`cross check ${label}${named}`)
  })
}

/** What the vocabulary needs of an item. */
export type Answered = Pick<Item, 'challenge' | 'responses'> & { readonly states?: Item['states'] | undefined }

/** The vocabulary of some items without a pack, for the command line and benchmarks. */
export function vocabularyOfItems(items: readonly Answered[], specs: readonly KindSpec[]): Vocabulary {
  const challenges = unique(items.map((item) => phrase(item.challenge)))
  const talk: Talk = { phrases: [], words: [], besideValues: [], others: [] }
  return { ...answersOf(items, specs), challenges, lists: [], others: [], commands: COMMAND_PHRASES, talk }
}

function answersOf(items: readonly Answered[], specs: readonly KindSpec[]) {
  const phrases = unique(items.flatMap((item) => itemPhrases(item)).flatMap(withContraries))
  const positions = specs.flatMap((spec) => (spec.kind === 'choice' ? valueWords(spec) : []))
  const names = specs.flatMap((spec) => (spec.kind === 'callsign' ? nameWords(spec) : []))
  const besideValues = items
    .flatMap((item) => itemPhrases(item, true))
    .flatMap((text) => text.split(' '))
    .flatMap(withContraries)
  const words = (texts: readonly string[]) => unique(texts.flatMap((text) => text.split(' ')))
  return {
    phrases,
    besideValues: words([...ALWAYS, ...besideValues, ...positions, ...names]),
    words: words([...ALWAYS, ...phrases, ...positions.flatMap(contraries)]),
  }
}

/**
 * Phrases of an item's responses without values and of its states, or those beside its values alone. A
 * response that does not parse is `check`'s to report.
 */
function itemPhrases(item: Answered, besideValues = false): string[] {
  const texts = item.responses.flatMap(({ text }) => {
    const parsed = parseResponse(text)
    if (!('response' in parsed)) return []
    const holdsValue = figuresOf(parsed.response).length > 0
    return holdsValue === besideValues ? wordsOf(parsed.response) : []
  })
  return [...texts, ...(besideValues ? [] : (item.states ?? []).flat())].map(phrase)
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
  return [...against.filter((text) => !isOrder(text) && text !== 'unset'), ...negated]
}

function listNames(list: List): string[] {
  const names = [list.name, ...list.alsoCalled].map(phrase).map((name) => name.replace(/ (check)?list$/, ''))
  return names.flatMap((name) => [name, `${name} checklist`, `${name} list`])
}
