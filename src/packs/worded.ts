/** All that the procedures ask to be said, with its wordings and states: by the name that its author gave it. */

import { wordingOf } from './buildExchange.ts'
import { responseOrNothing } from './checkNotation.ts'
import { statesIn } from './partStates.ts'
import type { ActivityText, ItemText, ProceduresText } from './proceduresSchema.ts'

export interface Worded {
  /** As it is told to the author: `item brake`. */
  readonly name: string
  /** In the response notation. */
  readonly text: string
  /** Every phrase of it, values left out. */
  readonly wordings: readonly string[]
  readonly states: readonly (readonly string[])[]
}

export function wordedIn({ phases }: ProceduresText): readonly Worded[] {
  return phases.flatMap(({ activities }) => activities.flatMap(inActivity))
}

function inActivity(activity: ActivityText): readonly Worded[] {
  if ('flow' in activity)
    return activity.steps.flatMap(({ step, say }) => say.map((text) => worded(`step ${step}`, text)))
  if ('list' in activity) {
    return activity.entries.flatMap((entry) =>
      'item' in entry
        ? textsOf(entry).map((text) => worded(`item ${entry.item}`, text, statesIn(entry.states)))
        : 'line' in entry
          ? entry.say.map((text) => worded(`line ${entry.line}`, text))
          : [],
    )
  }
  if ('watch' in activity) {
    const { watch, begins, calls, abnormal } = activity
    return [
      ...begins.map((text) => worded(`watch ${watch}`, text)),
      ...calls.flatMap(({ call, say }) => say.map((text) => worded(`call ${call}`, text))),
      ...abnormal.flatMap(({ abnormal: id, say }) => say.map((text) => worded(`call ${id}`, text))),
    ]
  }
  if ('briefing' in activity) {
    const { briefing, ends, topics } = activity
    return [
      ...ends.map((text) => worded(`briefing ${briefing}`, text)),
      ...topics.flatMap(({ topic, say }) => say.map((text) => worded(`topic ${topic}`, text))),
    ]
  }
  return activity.turns.flatMap(({ turn, calls, states, elements }) => [
    ...(calls === undefined ? [] : [worded(`turn ${turn}`, calls, states)]),
    ...elements.flatMap(({ element, readBack }) => {
      const texts = readBack === undefined ? [] : Object.values(wordingOf(readBack))
      return [...new Set(texts)].map((text) => worded(`element ${element}`, text, states))
    }),
  ])
}

const textsOf = ({ response }: ItemText) => (typeof response === 'string' ? [response] : response.map(({ say }) => say))

function worded(name: string, text: string, states: Worded['states'] = []): Worded {
  return { name, text, wordings: responseOrNothing(text).wordings, states: states.map((state) => state.map(lower)) }
}

const lower = (text: string) => text.toLowerCase()
