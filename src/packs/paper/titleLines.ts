/** What stands above the first list: whose checklist it is, and of what aircraft. */

import { BLANK, dividedLine } from './cells.ts'
import { endsInAnswer, hasPhaseWord, isRule, leftOut } from './lineKinds.ts'
import type { PaperHead } from './paper.ts'
import type { SourceLine } from './paperText.ts'

/** "NORMAL CHECKLIST". */
const CALLED =
  /\b(?:(?:normal|abbreviated|amplified|expanded|quick|cockpit|pilot'?s|operating|short|full|flight|procedures?) +){0,3}check ?lists?\b/i
const COMPANY =
  /\b(?:air|airlines?|airways|aviation|aero|flying|flight|club|charter|school|academy|jets?|express|regional|group|link)\b/i
const MOST_LINES = 6
const MOST_WORDS = 6

/** Undefined where no line says of what aircraft or for whom the checklist is. */
export function titleLines(lines: readonly SourceLine[]): PaperHead | undefined {
  const found: { operator?: PaperHead['title']; aircraft?: PaperHead['title'] } = {}
  let called: { readonly line: number; readonly text: string } | undefined
  const take = (line: number, text: string) => {
    const what = /\d/.test(text) ? 'aircraft' : COMPANY.test(text) || called === undefined ? 'operator' : 'aircraft'
    if (text !== '' && !found[what]) found[what] = { line, text: asNamed(text) }
  }
  const top = lines.filter(({ text }) => text !== '' && !isRule(text)).slice(0, MOST_LINES)
  for (const { line, text } of top) {
    const name = CALLED.exec(text)?.[0]
    const rest = text.replace(name ?? '', ' ').replace(/^[ \-:,|]+|[ \-:,|]+$/g, '')
    if (name === undefined && leftOut(text) !== undefined) continue
    if (isItem(text) || hasPhaseWord(rest) || rest.split(/ +/).length > MOST_WORDS || (name && called)) break
    if (name !== undefined) called = { line, text: name.toLowerCase().replace(/ +/g, ' ') }
    take(line, rest.split(/ +/).join(' '))
  }
  if (!called || (!found.aircraft && !found.operator)) return undefined
  const of = found.aircraft ?? found.operator
  return { ...found, title: { line: called.line, text: `${of?.text} ${called.text}` } }
}

function isItem(text: string): boolean {
  const divided = dividedLine(text)
  return text.includes(BLANK) || /\.\.|__/.test(text) || (divided !== undefined && endsInAnswer(divided.cells))
}

/** "SANDPIPER AIR" as a name is written; what has numbers or no vowel stays. */
function asNamed(text: string): string {
  if (/\p{Ll}/u.test(text)) return text
  return text
    .split(' ')
    .map((word) =>
      /\d/.test(word) || !/[AEIOUY]/.test(word) || word.length < 3 ? word : word[0] + word.slice(1).toLowerCase(),
    )
    .join(' ')
}
