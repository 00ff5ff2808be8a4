/**
 * Everything that may have to be said aloud, so that an embedded voice can hold a clip of it. Phrases
 * are said as they stand; words are what answers, values and echoes of what was heard are composed of.
 */

import { valueWords } from '../kernel/hearing/numberShapes.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { ALPHABET } from '../kernel/kinds/choice.ts'
import { affixesOf } from '../kernel/kinds/table.ts'
import { NUMBER_WORDS } from '../kernel/numbers/words.ts'
import type { Activity, Interlock, Item, Line, Pack } from '../kernel/run/checklist.ts'
import { FIXED_PHRASES } from '../kernel/run/phrases.ts'

export interface Spoken {
  readonly phrases: readonly string[]
  readonly words: readonly string[]
}

/** What is said with any pack. */
export function fixedTexts(): Spoken {
  return { phrases: FIXED_PHRASES, words: [...NUMBER_WORDS.keys(), ...Object.values(ALPHABET).flat(), 'minus'] }
}

/** What a pack adds: its names, and every word that its answers, states and values can hold. */
export function textsOf(pack: Pack): Spoken {
  const activities = pack.phases.flatMap((phase) => phase.activities)
  const figures = Object.values(pack.figures.declarations)
  const { words, challenges, lists, others, commands } = vocabularyOf(pack)
  return {
    phrases: [...pack.phases.map((phase) => phase.name), ...activities.flatMap(phrasesOf)],
    words: [
      ...[words, challenges, lists, others, commands].flat(),
      ...activities.flatMap(answersOf),
      ...pack.situations.flatMap(({ label, options }) => [label, ...options.map((option) => option.label)]),
      ...figures.flatMap(({ spec, label, alsoCalled }) => [
        ...valueWords(spec),
        ...affixesOf(spec).keys(),
        label,
        ...alsoCalled,
      ]),
    ],
  }
}

function phrasesOf(activity: Activity): string[] {
  switch (activity.type) {
    case 'flow':
      return [activity.name]
    case 'list':
      return [activity.name, ...activity.entries.flatMap(entryPhrases)]
    case 'watch':
      return [
        activity.name,
        activity.stopWords,
        ...cautions(activity.interlocks),
        ...activity.calls.map((call) => call.label),
        ...activity.abnormal.flatMap(({ label, stopWords, actions }) => [label, stopWords, ...actions]),
      ]
    case 'exchange':
      return [activity.name, ...activity.turns.flatMap(({ interlocks }) => cautions(interlocks))]
    case 'briefing':
      return [activity.name, ...activity.topics.map(({ label }) => label)]
  }
}

function entryPhrases(entry: Item | Line): string[] {
  return entry.type === 'line' ? [entry.label] : [entry.challenge, ...cautions(entry.interlocks)]
}

function cautions(interlocks: readonly Interlock[] | undefined): string[] {
  return (interlocks ?? []).map((interlock) => interlock.say)
}

/** Words of calls, and of answers with the names of their parts; figures in them are said by their values. */
function answersOf(activity: Activity): string[] {
  if (activity.type === 'flow' || activity.type === 'exchange' || activity.type === 'briefing') return []
  if (activity.type === 'watch') return activity.begins.concat(...activity.calls.map((call) => call.say))
  return activity.entries.flatMap((entry) =>
    entry.type === 'line'
      ? entry.say
      : entry.responses.map(({ text }) => text.replace(/<[^>]*>/g, ' ').replace(/[[\](){}|]/g, ' ')),
  )
}
