/** What a draft from paper left open: comments that begin with "# ?", each above what it asks about. */

import type { Document } from 'yaml'
import { pathIn } from '../hints/spot.ts'
import { readYaml } from '../yamlText.ts'
import { thingOn } from './things.ts'

export interface OpenQuestion {
  readonly text: string
  /** Of its line in the file, and of what it asks about. */
  readonly from: number
  readonly about: number
}

const MARK = /^[ \t]*# \?[ \t]*(.*)$/

/** In their order in the text. */
export function questionsIn(text: string): readonly OpenQuestion[] {
  const found: OpenQuestion[] = []
  let from = 0
  for (const line of text.split('\n')) {
    const asked = MARK.exec(line)
    if (asked) found.push({ text: asked[1] ?? '', from, about: aboutAt(text, from + line.length + 1) })
    from += line.length + 1
  }
  return found
}

/** The next one behind a place of the text, or the first of all. */
export function questionAfter(questions: readonly OpenQuestion[], offset: number): OpenQuestion | undefined {
  return questions.find(({ about }) => about > offset) ?? questions[0]
}

/** Those about what has the form of this path; without one, those about nothing that has a form. */
export function questionsOf(
  file: string,
  text: string,
  document: Document.Parsed,
  data: unknown,
  path: readonly (string | number)[] | undefined,
): readonly OpenQuestion[] {
  return questionsIn(text).filter(({ about }) => {
    const thing = thingOn(file, pathIn(document.contents, about), data)
    return path === undefined ? thing === undefined : thing?.path.join('.') === path.join('.')
  })
}

/** The text without the comment. Undefined where the file would say something else without it: in a text over several lines. */
export function settled(text: string, { from }: OpenQuestion): string | undefined {
  const end = text.indexOf('\n', from)
  const next = text.slice(0, from) + (end < 0 ? '' : text.slice(end + 1))
  const [before, after] = [readYaml(text), readYaml(next)]
  if (!('document' in before) || !('document' in after)) return undefined
  return JSON.stringify(before.document.toJS()) === JSON.stringify(after.document.toJS()) ? next : undefined
}

/** Behind a dash and spaces of the first line from here that is no comment. */
function aboutAt(text: string, from: number): number {
  let at = from
  for (const line of text.slice(from).split('\n')) {
    if (line.trim() !== '' && !line.trimStart().startsWith('#'))
      return at + (/^[ \t]*(- +)?/.exec(line)?.[0].length ?? 0)
    at += line.length + 1
  }
  return Math.min(from, text.length)
}
