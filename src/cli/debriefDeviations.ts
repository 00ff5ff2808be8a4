/** Kinds of deviation and "Did you look?" in the account, as lines of text. */

import { clockTime } from '../kernel/run/core/clockTime.ts'
import { byKind, DEVIATION_WORDS, type Deviation } from '../kernel/run/debrief/deviations.ts'
import { type DebriefLooks, looksWords } from '../kernel/run/debrief/look/looks.ts'

export function deviationLines(deviations: readonly Deviation[]): string[] {
  if (deviations.length === 0) return []
  const lines = byKind(deviations).flatMap(([kind, all]) => [
    `  ${DEVIATION_WORDS[kind].name}: ${all.length}`,
    ...all.map(({ where, at, said, sentence, why }) => {
      const when = at === undefined ? '' : `${clockTime(at)} `
      return `    ${when}${where}${said === undefined ? '' : ` ("${said}")`}: ${sentence} ${why}`
    }),
  ])
  return ['', 'Deviations by kind:', ...lines]
}

/** Each quick answer stands among the deviations. */
export function lookLines(looks: DebriefLooks): string[] {
  return looks.answers.length === 0 ? [] : ['', 'Did you look?', ...looksWords(looks).map((line) => `  ${line}`)]
}
