/**
 * Everything that may have to be said aloud in each voice, so that an embedded one can hold a clip of it. Phrases are
 * said as they stand; words are what answers, values and echoes of what was heard are composed of.
 */

import type { FigureDeclaration } from '../kernel/figures/pack.ts'
import { sourceWords } from '../kernel/figures/sources.ts'
import { valueWords } from '../kernel/hearing/numberShapes.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { ALPHABET } from '../kernel/kinds/letters.ts'
import { affixesOf } from '../kernel/kinds/table.ts'
import { spokenUnit, unitAloud } from '../kernel/kinds/unitWords.ts'
import { NUMBER_WORDS } from '../kernel/numbers/words.ts'
import type { Activity, Item, Line, Pack } from '../kernel/pack/checklist.ts'
import type { Interlock } from '../kernel/pack/condition.ts'
import type { Exchange } from '../kernel/pack/exchange.ts'
import { listsOf } from '../kernel/pack/place.ts'
import type { Role } from '../kernel/pack/roles.ts'
import type { Response } from '../kernel/response/response.ts'
import { engineOf, FIXED_PHRASES } from '../kernel/run/core/phrases.ts'
import { STATION_PHRASES } from '../kernel/run/talk/radio.ts'

export interface Spoken {
  readonly phrases: readonly string[]
  readonly words: readonly string[]
}

/** What a voice says with any pack. */
export function fixedTexts(role: Role): Spoken {
  return {
    phrases: role === 'otherseat' ? FIXED_PHRASES : STATION_PHRASES,
    words: [...NUMBER_WORDS.keys(), ...Object.values(ALPHABET).flat(), 'minus'],
  }
}

/** What a voice says with a pack: a station what its exchanges have it say, Otherseat all else. */
export function textsOf(pack: Pack, role: Role): Spoken {
  const transmissions = transmissionsOf(pack, role)
  if (role !== 'otherseat') return transmissions
  return {
    phrases: [...ownPhrases(pack), ...transmissions.phrases],
    words: [...ownWords(pack), ...transmissions.words],
  }
}

/** The names that the pack adds to Otherseat's voice. */
export function ownPhrases(pack: Pack): string[] {
  return [
    ...pack.phases.map((phase) => phase.name),
    ...pack.phases.flatMap((phase) => phase.activities).flatMap(phrasesOf),
    ...(pack.quirks ?? []).map((quirk) => quirk.say),
    ...pack.papers.map((paper) => paper.title),
  ]
}

/** Every word that the pack's answers, states and values can hold. */
function ownWords(pack: Pack): string[] {
  const { words, challenges, lists, others, commands } = vocabularyOf(pack)
  return [
    ...[words, challenges, lists, others, commands].flat(),
    ...pack.phases.flatMap((phase) => phase.activities).flatMap(answersOf),
    ...askedFigures(pack).flatMap(({ measure }) => unitWordsOf(measure)),
    ...pack.situations.flatMap(({ label, options }) => [label, ...options.map((option) => option.label)]),
    ...Object.values(pack.figures.declarations).flatMap((figure) => [
      ...figureWords(figure),
      figure.label,
      ...figure.alsoCalled,
      ...(figure.stated?.sources ?? []).map(sourceWords),
    ]),
  ]
}

const figureWords = ({ spec }: FigureDeclaration) => [
  ...valueWords(spec),
  ...[...affixesOf(spec)].flatMap(([word, { role }]) => (role === 'otherUnit' ? [] : word)),
]

/** Figures that items say. */
function askedFigures(pack: Pack): FigureDeclaration[] {
  const items = listsOf(pack).flatMap(({ entries }) => entries.filter((entry) => entry.type === 'item'))
  const names = items.flatMap(({ responses }) => responses.flatMap(({ response }) => response.figures))
  return [...new Set(names)].flatMap((name) => pack.figures.declarations[name] ?? [])
}

/** As it is asked for, where a value was said in another unit. */
function unitWordsOf(measure: FigureDeclaration['measure']): string[] {
  const { unit } = measure === undefined ? {} : spokenUnit(measure)
  return unit ? unitAloud(unit).split(' ') : []
}

/** The wordings of a role's exchanges in pieces between their figures, and what the values of those can be said in. */
function transmissionsOf(pack: Pack, role: Role): Spoken {
  const exchanges = pack.phases
    .flatMap(({ activities }) => activities)
    .filter((activity): activity is Exchange => activity.type === 'exchange' && activity.station.role === role)
  const templates = exchanges.flatMap(({ turns }) =>
    turns.flatMap(({ opens, closes, elements }) =>
      [opens, closes, ...elements.map(({ says }) => says)].flatMap((wording) =>
        wording ? Object.values(wording) : [],
      ),
    ),
  )
  const names = new Set(templates.flatMap((template) => template.figures))
  const labels = exchanges.flatMap(({ turns }) =>
    turns.flatMap(({ label, elements }) => [label, ...elements.map((element) => element.label)]),
  )
  const figures = [...names].flatMap((name) => pack.figures.declarations[name] ?? [])
  return {
    phrases: [...templates.flatMap(({ pieces }) => pieces.filter((piece) => typeof piece === 'string')), ...labels],
    words: [...figures.flatMap(figureWords), ...figures.map(({ label }) => label)],
  }
}

function phrasesOf(activity: Activity): string[] {
  switch (activity.type) {
    case 'flow':
      return [
        activity.name,
        ...activity.steps.flatMap(({ text, short, interlocks }) => [
          text,
          ...(short ? [short] : []),
          ...cautions(interlocks),
        ]),
      ]
    case 'list':
      return [activity.name, ...activity.entries.flatMap(entryPhrases)]
    case 'watch':
      return [
        ...[activity.name, engineOf(activity.name), activity.stopWords],
        ...cautions(activity.interlocks),
        ...[activity.attempts?.rest, activity.attempts?.cool].flatMap((pause) => pause?.say ?? []),
        ...activity.calls.flatMap(({ label, value, reply }) => [
          label,
          ...[value?.label, value?.stopWords, reply].filter((text) => text !== undefined),
        ]),
        ...(activity.hold === undefined ? [] : [activity.hold]),
        ...activity.abnormal.flatMap(({ label, stopWords, actions, again }) => [
          ...[label, stopWords, ...actions],
          ...(again ? [again.say] : []),
        ]),
      ]
    case 'exchange':
      return [
        activity.name,
        activity.station.name,
        ...activity.turns.flatMap(({ label, elements, interlocks }) => [
          label,
          ...elements.map((element) => element.label),
          ...cautions(interlocks),
        ]),
      ]
    case 'briefing':
      return [activity.name, ...activity.topics.map(({ label }) => label)]
  }
}

function entryPhrases(entry: Item | Line): string[] {
  if (entry.type === 'line') return [entry.label]
  return [entry.challenge, ...(entry.look ?? []), ...cautions(entry.interlocks)]
}

function cautions(interlocks: readonly Interlock[] | undefined): string[] {
  return (interlocks ?? []).flatMap(({ say, due }) => (due === undefined ? [say] : [say, due]))
}

/** Words of calls, and of answers with the names of their parts; figures in them are said by their values. */
function answersOf(activity: Activity): string[] {
  switch (activity.type) {
    case 'flow':
      return []
    case 'watch':
      return [activity.begins, ...activity.calls.map((call) => call.say)].flatMap(wordsIn)
    case 'exchange':
      return activity.turns
        .flatMap(({ calls, elements }) => [calls, ...elements.flatMap(({ readBack }) => Object.values(readBack ?? {}))])
        .flatMap((response) => (response ? wordsIn(response) : []))
    case 'briefing':
      return [activity.ends, ...activity.topics.flatMap((topic) => topic.say)].flatMap(wordsIn)
    case 'list':
      return activity.entries.flatMap((entry) =>
        entry.type === 'line' ? wordsIn(entry.say) : entry.responses.flatMap(({ response }) => wordsIn(response)),
      )
  }
}

/** With the tags, by which parts are asked for. */
const wordsIn = ({ wordings, paths }: Response) => [
  ...wordings,
  ...paths.flat().flatMap((slot) => (slot.type === 'figure' && slot.name === slot.figure ? [] : slot.name)),
]
