/** Phrases that mean two things where both may be said: nobody could tell which. */

import type { Problem } from '../../kernel/problem.ts'
import { quoted } from '../../kernel/quoted.ts'
import { phrasesOf } from '../../kernel/response/expansion.ts'
import { responseOrNothing } from '../checkNotation.ts'
import type { FlowText, WatchText } from '../proceduresSchema.ts'
import type { Path, Source } from '../source.ts'
import { isAllOptional } from './items.ts'
import { type Advise, activitiesOf, advising, type Written } from './written.ts'

/** A way to say something, and where it stands. */
interface Saying {
  readonly text: string
  readonly path: Path
  readonly source: Source
  /** What it means, in words: "call light", "the list before start". */
  readonly means: string
}

export function advisePhrases(written: Written): Problem[] {
  const problems: Problem[] = []
  const activities = activitiesOf(written)
  const { source } = written.procedures
  const anywhere: Saying[] = [...situationsIn(written)]
  for (const { value, path } of activities) {
    if ('list' in value) anywhere.push(...listNames(value, path, source))
  }
  for (const { value, path } of activities) {
    if ('watch' in value) {
      const means = `the watch ${value.name}`
      anywhere.push(...value.begins.map((text, index) => ({ text, path: [...path, 'begins', index], source, means })))
      adviseSame(callsOf(value, path, source), problems)
    } else if ('flow' in value) adviseSame(stepsOf(value, path, source), problems)
    else if ('list' in value) {
      const lines = value.entries.flatMap((entry, index) => ('line' in entry ? [{ entry, index }] : []))
      for (const { entry, index } of lines) {
        adviseSayable(entry.say, [...path, 'entries', index, 'say'], advising(source, problems))
      }
    }
  }
  adviseSame(anywhere, problems)
  return problems
}

function situationsIn({ pack }: Written): Saying[] {
  return Object.entries(pack.value.situations).flatMap(([name, { options }]) =>
    Object.entries(options).flatMap(([value, { say }]) =>
      say.map((text, index) => ({
        text,
        path: ['situations', name, 'options', value, 'say', index],
        source: pack.source,
        means: `situation ${name} ${value}`,
      })),
    ),
  )
}

function listNames(
  { name, alsoCalled }: { readonly name: string; readonly alsoCalled: readonly string[] },
  path: Path,
  source: Source,
): Saying[] {
  const means = `the list ${name}`
  const variants = [name, `${name} list`, `${name} checklist`]
  return [
    ...variants.map((text) => ({ text, path: [...path, 'name'], source, means })),
    ...alsoCalled.map((text, index) => ({ text, path: [...path, 'alsoCalled', index], source, means })),
  ]
}

function callsOf({ calls, abnormal }: WatchText, path: Path, source: Source): Saying[] {
  const ways = (say: readonly string[], at: Path, means: string) =>
    say.map((text, index) => ({ text, path: [...at, 'say', index], source, means }))
  return [
    ...calls.flatMap(({ call, say }, index) => ways(say, [...path, 'calls', index], `call ${call}`)),
    ...abnormal.flatMap(({ abnormal: id, say }, index) =>
      ways(say, [...path, 'abnormal', index], `abnormal call ${id}`),
    ),
  ]
}

function stepsOf({ steps }: FlowText, path: Path, source: Source): Saying[] {
  return steps.flatMap(({ step, say }, index) =>
    say.map((text, way) => ({ text, path: [...path, 'steps', index, 'say', way], source, means: `step ${step}` })),
  )
}

/** Each phrase that something else before it has too, and each that asks for nothing. */
function adviseSame(sayings: readonly Saying[], problems: Problem[]): void {
  const meant = new Map<string, string>()
  const told = new Set<string>()
  for (const { text, path, source, means } of sayings) {
    const advise = advising(source, problems)
    adviseSayable([text], path, advise)
    for (const phrase of phrasesOf(responseOrNothing(text).tree)) {
      const other = meant.get(phrase) ?? means
      meant.set(phrase, other)
      const pair = `${other}\n${means}`
      if (other === means || told.has(pair) || phrase === '') continue
      told.add(pair)
      advise('twoMeanings', path, `${quoted(phrase)} is ${other} already; ${means} needs words of its own`)
    }
  }
}

/** `path` is that of the list of ways, or of the one way. */
function adviseSayable(say: readonly string[], path: Path, advise: Advise): void {
  for (const [index, text] of say.entries()) {
    if (!isAllOptional(responseOrNothing(text))) continue
    const at = say.length > 1 || path.at(-1) === 'say' ? [...path, index] : path
    advise('optional', at, 'all of it is in brackets, so none of it has to be said: take what must be said out')
  }
}
