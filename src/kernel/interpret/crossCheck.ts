/** A cross-check aloud: which figure is to be read off which source, and what was then read. */

import { sourceAloud, sourceWords } from '../figures/sources.ts'
import { spokenWords, wordsOf } from '../hearing/phrases.ts'
import { readOff } from '../response/readOff.ts'
import type { EventBody } from '../run/core/events.ts'
import type { Utterance } from './utterance.ts'

/** How a source is named after a figure: "cross check runway from the load sheet". */
const BEFORE_SOURCE = ['from', 'off', 'with', 'against', 'on']

const withoutThe = (words: readonly string[]) => words.filter((word) => word !== 'the').join(' ')
const plain = (text: string) => withoutThe(spokenWords(text))

/** "Cross check zero fuel weight": the figure, where the pack lets somebody state it, and the source that was named or is the first to ask. */
export function crossCheck({ pack, said, evidence }: Utterance): EventBody | undefined {
  const words = withoutThe(wordsOf(said.heard.tokens)).replace(/^crosscheck(ed)?\b/, 'cross check')
  if (!words.startsWith('cross check ')) return undefined
  for (const { name, label, alsoCalled, stated } of Object.values(pack.figures.declarations)) {
    if (!stated) continue
    for (const called of [label, ...alsoCalled]) {
      const asked = `cross check ${plain(called)}`
      const isNamed = (source: string) =>
        BEFORE_SOURCE.some((word) => words === `${asked} ${word} ${plain(sourceWords(source))}`)
      // Of a source that the figure does not have, it is told which ones there are.
      const isOther = BEFORE_SOURCE.some((word) => words.startsWith(`${asked} ${word} `))
      const known = words === asked ? sourceAloud(stated.sources) : stated.sources.find(isNamed)
      const source = known ?? (isOther ? '' : undefined)
      if (source !== undefined) return { type: 'crossCheckAsked', figure: name, source, evidence }
    }
  }
  return undefined
}

/** What was read off, whether it agrees or not; undefined where it is not one value. */
export function readOffSource({ pack, state, said, evidence }: Utterance): EventBody | undefined {
  const { question } = state
  const declared = question?.about === 'reading' && pack.figures.declarations[question.figure]
  if (!declared) return undefined
  const value = readOff(declared.spec, [declared.label, ...declared.alsoCalled], said)
  const { figure, source } = question
  return value === undefined ? undefined : { type: 'stated', source, figure, value, evidence }
}
