/** A pack -> the one vocabulary that serves all its items: what they say, and the contrary of it. */

import type { FigureDeclaration } from '../figures/pack.ts'
import { sourceAloud, sourceWords } from '../figures/sources.ts'
import type { KindSpec } from '../kinds/kind.ts'
import { unitWords } from '../kinds/unitWords.ts'
import type { Activity, List, Pack, WatchCall } from '../pack/checklist.ts'
import { type EngineNames, engineNames } from '../pack/engineNames.ts'
import { LISTENED_FOR, NOT_APPLICABLE } from '../response/commands.ts'
import type { Response } from '../response/response.ts'
import type { Vocabulary } from './hearable.ts'
import { valueWords } from './numberShapes.ts'
import { type Answered, answersOf, phrase, unique } from './phrases.ts'
import { namesIn } from './spelling.ts'
import { talkOf } from './talk.ts'

/** What ends a flow. */
const FLOW_DONE = [
  ...['done', 'all done', 'complete', 'flow complete', 'flow done', 'flow is complete', 'step done'],
  ...['read the flow', 'read me the steps', 'next step'],
]

/** Everything that may be said while this pack is run; holds no figure's value. Order does not matter. */
export function vocabularyOf(pack: Pack): Vocabulary {
  const activities = pack.phases.flatMap((phase) => phase.activities)
  const watches = activities.filter((activity) => activity.type === 'watch')
  const flows = activities.filter((activity) => activity.type === 'flow')
  const lists = activities.filter((activity) => activity.type === 'list')
  const briefings = activities.filter((activity) => activity.type === 'briefing')
  const exchanges = activities.filter((activity) => activity.type === 'exchange')
  const items = lists.flatMap((list) => list.entries).filter((entry) => entry.type === 'item')
  const lines = lists.flatMap((list) => list.entries).filter((entry) => entry.type === 'line')
  const figures = Object.values(pack.figures.declarations)
  const said = new Set(items.flatMap(({ responses }) => responses.flatMap(({ response }) => response.figures)))
  // What no item has would only be a rival: "few" of the clouds where "two" is said.
  const answers = answersOf(
    items,
    figures.flatMap(({ name, spec }) => (said.has(name) ? spec : [])),
  )
  const calls = watches.flatMap((watch) => watch.calls)
  const enginesNamed = watches.map((watch) => engineNames(watches, watch))
  return {
    ...answers,
    besideValues: unique([
      ...answers.besideValues,
      ...figures.flatMap(({ name, spec }) => (said.has(name) ? unitsBehind(spec) : [])),
      ...calls.filter(({ value }) => value).flatMap(wordsOfCall),
      ...enginesNamed.flatMap(({ full }) => full.flatMap((name) => name.split(' '))),
    ]),
    challenges: unique(items.map((item) => phrase(item.challenge))),
    lists: unique(lists.flatMap(listNames)),
    others: unique([
      ...FLOW_DONE,
      ...watches.flatMap(({ begins }) => waysOf(begins)),
      ...watches.flatMap(({ begins }, at) => withEngine(waysOf(begins), enginesNamed[at])),
      ...watches.flatMap(({ calls }, at) => callsByEngine(calls, enginesNamed[at])),
      ...watches.flatMap(({ stopWords, abnormal }) => [stopWords, ...abnormal.map((one) => one.stopWords)]).map(phrase),
      ...[...calls.filter(({ value }) => !value), ...watches.flatMap(({ abnormal }) => abnormal)].flatMap(({ say }) =>
        waysOf(say),
      ),
      ...calls.filter(({ value }) => value).flatMap(withoutValue),
      ...flows.flatMap(({ steps }) => steps.flatMap(({ say }) => (say ? waysOf(say) : []))),
      ...(pack.quirks ?? []).flatMap(({ named }) => named.map((name) => `remark ${phrase(name)}`)),
      ...lines.flatMap(({ say }) => waysOf(say)),
      ...(items.some(({ optional }) => optional) ? NOT_APPLICABLE : []),
      ...pack.situations.flatMap(({ options }) => options.flatMap(({ say }) => waysOf(say))),
      ...figures.flatMap(({ label, alsoCalled }) => [label, ...alsoCalled].map((name) => `confirm ${phrase(name)}`)),
      ...[...items.map(({ challenge }) => challenge), ...[...briefings, ...exchanges].map(({ name }) => name)].map(
        (name) => `recheck ${phrase(name)}`,
      ),
      ...figures.flatMap(crossChecks),
    ]),
    commands: LISTENED_FOR,
    names: unique(figures.flatMap(({ spec }) => namesIn(spec))),
    ...(pack.pronunciations && { pronunciations: pack.pronunciations }),
    talk: talkWords(pack, activities),
  }
}

/** Kinds of their own have the words of their unit among their own. */
const unitsBehind = (spec: KindSpec) => (spec.kind === 'integer' || spec.kind === 'decimal' ? unitWords(spec.unit) : [])

/** Words that a call puts around its value. */
const wordsOfCall = ({ say }: WatchCall) => waysOf(say).flatMap((text) => text.split(' '))

/** More ways than this are left to the single words. */
const MOST_WAYS = 40

/** Names of an engine as they are mostly said. */
const usualNames = ({ side, number }: EngineNames): string[] => [
  ...(side === undefined ? [] : [`${side} engine`]),
  ...(number === undefined ? [] : [`number ${number}`]),
]

/** The words that begin a start, with another name of its engine: "starting number two". */
function withEngine(begins: readonly string[], names: EngineNames = { full: [] }): string[] {
  const said = [...names.full, names.side].filter((name) => name !== undefined)
  return begins.flatMap((text) => {
    const own = said.find((name) => ` ${text} `.includes(` ${name} `))
    return own === undefined ? [] : usualNames(names).map((name) => text.replace(own, name))
  })
}

/** Calls behind the name of their engine: "right engine light up". */
const callsByEngine = (calls: readonly WatchCall[], names: EngineNames = { full: [] }): string[] =>
  calls
    .filter(({ value }) => !value)
    .flatMap(({ say }) => usualNames(names).flatMap((name) => waysOf(say).map((text) => `${name} ${text}`)))

/** A call said without its value, which is asked for then: "fuel is on". */
function withoutValue({ say }: WatchCall): string[] {
  return say.paths.flatMap((path) =>
    path
      .flatMap((slot) => (slot.type === 'word' ? slot : []))
      .reduce<string[]>(
        (heads, { required, wordings }) => {
          const words = [...(required ? [] : ['']), ...wordings.map(({ text }) => phrase(text))]
          return heads.flatMap((head) => words.map((word) => `${head} ${word}`.trim())).slice(0, MOST_WAYS)
        },
        [''],
      ),
  )
}

/** The ways to say something; of a call with a value the pieces around it. */
const waysOf = (response: Response) => response.wordings.map(phrase)

/** Words of calls, read-backs, orders and briefings. */
function talkWords(pack: Pack, activities: readonly Activity[]): string[] {
  const specs = Object.fromEntries(Object.values(pack.figures.declarations).map(({ name, spec }) => [name, spec]))
  const talks = activities.flatMap((activity) =>
    activity.type === 'exchange' || activity.type === 'briefing' ? [talkOf(activity, [], specs)] : [],
  )
  const phrases = talks.flatMap((talk) => [...talk.phrases, ...talk.words, ...talk.others])
  // Values that come in calls alone have words of their own: the options of a choice.
  return unique([...phrases.flatMap((text) => text.split(' ')), ...Object.values(specs).flatMap(valueWords)])
}

/** A figure alone is read off the source that is asked first; the others have to be named. */
function crossChecks({ label, stated }: FigureDeclaration): string[] {
  const sources = stated?.sources ?? []
  return sources.map((source) => {
    const named = source === sourceAloud(sources) ? '' : ` from the ${sourceWords(source)}`
    return phrase(`cross check ${label}${named}`)
  })
}

/** The vocabulary of some items without a pack, for the command line and benchmarks. */
export function vocabularyOfItems(items: readonly Answered[], specs: readonly KindSpec[]): Vocabulary {
  const challenges = unique(items.map((item) => phrase(item.challenge)))
  return {
    ...answersOf(items, specs),
    challenges,
    lists: [],
    others: [],
    commands: LISTENED_FOR,
    names: unique(specs.flatMap(namesIn)),
    talk: [],
  }
}

function listNames(list: List): string[] {
  const names = [list.name, ...list.alsoCalled].map(phrase).map((name) => name.replace(/ (check)?list$/, ''))
  return names.flatMap((name) => [name, `${name} checklist`, `${name} list`])
}
