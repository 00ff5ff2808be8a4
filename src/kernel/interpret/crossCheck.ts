/** A cross-check aloud: which figure is to be read off which source, and what was then read. */

import { sourceAloud, sourceWords } from '../figures/sources.ts'
import type { Heard } from '../hearing/heard.ts'
import { spokenWords } from '../hearing/phrases.ts'
import type { Pack } from '../pack/checklist.ts'
import { readOff } from '../response/readOff.ts'
import type { Evidence, Happening } from '../run/core/events.ts'
import type { Question } from '../run/core/state.ts'

/** How a source is named behind a figure: "cross check runway from the load sheet". */
const BEFORE_SOURCE = ['from', 'off', 'with', 'against', 'on']

const plain = (text: string) =>
  spokenWords(text)
    .filter((word) => word !== 'the')
    .join(' ')

/** "Cross check zero fuel weight": the figure, where the pack lets somebody state it, and the source that was named or is the first to ask. */
export function crossCheckIn(pack: Pack, text: string): { figure: string; source: string } | undefined {
  const said = plain(text).replace(/^crosscheck(ed)?\b/, 'cross check')
  if (!said.startsWith('cross check ')) return undefined
  for (const { name, label, alsoCalled, stated } of Object.values(pack.figures.declarations)) {
    for (const called of stated ? [label, ...alsoCalled] : []) {
      const asked = `cross check ${plain(called)}`
      if (said === asked) return { figure: name, source: sourceAloud(stated?.sources ?? []) }
      const source = stated?.sources.find((one) =>
        BEFORE_SOURCE.some((word) => said === `${asked} ${word} ${plain(sourceWords(one))}`),
      )
      if (source) return { figure: name, source }
    }
  }
  return undefined
}

/** What was read off, whether it agrees or not; undefined where it is not one value. */
export function readingOf(
  pack: Pack,
  { figure, source }: Extract<Question, { about: 'reading' }>,
  heard: Heard,
  evidence: Evidence,
): Happening | undefined {
  const declared = pack.figures.declarations[figure]
  if (!declared || heard.doubt) return undefined
  const { text, score, alternatives } = heard
  const value = readOff(declared.spec, {
    names: [declared.label, ...declared.alsoCalled],
    heard: text,
    ...(score !== undefined && { score }),
    ...(alternatives && { alternatives }),
  })
  return value === undefined ? undefined : { type: 'stated', source, figure, value, evidence }
}
