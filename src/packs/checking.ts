/** What all checks of procedures.yaml use: one file on its way, its names, and where a mistake stands. */

import { ownOf } from '../kernel/own.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { runTogether } from './checkApart.ts'
import { responseAt } from './checkNotation.ts'
import type { WordingText } from './exchangeSchema.ts'
import type { Grounds } from './figureGraph.ts'
import type { FiguresText } from './figuresSchema.ts'
import { didYouMean, nearest } from './nearest.ts'
import type { PackText } from './packSchema.ts'
import type { ItemText } from './proceduresSchema.ts'
import { readOnly } from './readOnly.ts'
import { add, type Meant, type Report } from './reporting.ts'
import type { Path, Source } from './source.ts'

/** One file on its way: what there is to name, and what was wrong. */
export interface Checking {
  readonly source: Source
  readonly problems: Problem[]
  readonly report: Report
  /** Undefined where pack.yaml could not be read: then its situations are not checked. */
  readonly pack: PackText | undefined
  /** The pack's figures; undefined where that file could not be read. */
  readonly figures: FiguresText['figures'] | undefined
  readonly grounds: Grounds
  /** All that an interlock may come after. */
  readonly events: ReadonlySet<string>
  /** Clearances that a line or an interlock waits for. */
  readonly awaited: ReadonlySet<string>
}

export function once({ report }: Checking, seen: Set<string>, id: string, what: string, path: Path): void {
  const key = id.toLowerCase()
  if (seen.has(key)) report('id.duplicate', path, `${what} ${quoted(id)} stands twice; each must be its own`)
  seen.add(key)
}

function isKnown({ figures }: Checking, name: string): boolean {
  return !figures || Object.hasOwn(figures, name)
}

const unknownFigure = (name: string) => `no figure is called ${quoted(name)}`
const figureMeant = ({ figures }: Checking, name: string) => ({ name, known: () => Object.keys(figures ?? {}) })

export function checkFigure(checking: Checking, name: string, path: Path): void {
  if (isKnown(checking, name)) return
  checking.report('figure.unknown', path, unknownFigure(name), figureMeant(checking, name))
}

export function checkInterlocks({ events, report }: Checking, interlocks: ItemText['interlocks'], path: Path): void {
  for (const [index, { after }] of (interlocks ?? []).entries()) {
    if (events.has(after)) continue
    report('interlock.unknown', [...path, 'interlocks', index, 'after'], nothingCalled(after, [...events]))
  }
}

const CLEARED = 'cleared:'

/** Of what is written in two parts, "beforeStart.brake", the part that is not known. */
function nothingCalled(after: string, events: readonly string[]): string {
  if (after.startsWith(CLEARED)) {
    const name = after.slice(CLEARED.length)
    const known = events.flatMap((event) => (event.startsWith(CLEARED) ? event.slice(CLEARED.length) : []))
    const none = known.length === 0 ? `; write clears: ${name} at the turn that gives it` : ''
    return `no line or turn clears ${quoted(name)}${didYouMean(name, known)}${none}`
  }
  const plain = events.filter((event) => !event.startsWith(CLEARED))
  const [head = '', ...rest] = after.split('.')
  const parts = plain.flatMap((event) => (event.startsWith(`${head}.`) ? event.slice(head.length + 1) : []))
  if (rest.length > 0 && parts.length > 0) {
    return `${head} has nothing called ${quoted(rest.join('.'))}${didYouMean(rest.join('.'), parts)}`
  }
  const heads = [...new Set(plain.map((event) => event.split('.')[0] ?? ''))]
  return `nothing is called ${quoted(after)}${didYouMean(after, nearest(after, plain) === undefined ? heads : plain)}`
}

/** A text in the response notation; `what` names it for its author. Gives back the figures in it. */
export function checkResponse(checking: Checking, text: string, path: Path, what = 'response'): readonly string[] {
  const response = responseAt(checking.source, text, path, what)
  if (!('figures' in response)) {
    checking.problems.push(...response)
    return []
  }
  const named = response.figures
  for (const name of named.filter((one) => !isKnown(checking, one))) {
    const offset = Math.max(0, text.indexOf(`<${name}>`))
    reportInText(checking, 'figure.unknown', path, offset, unknownFigure(name), figureMeant(checking, name))
  }
  if (what !== 'response') checkNoReading(checking, named, path, text)
  const [one, other] = runTogether(response, checking.figures) ?? []
  if (one !== undefined) {
    const message = `${what}: nobody hears where <${one}> ends and <${other}> begins; make them one figure of the kind route, or put a word between them`
    reportInText(checking, 'figures.together', path, Math.max(0, text.indexOf(`<${one}>`)), message)
  }
  return named
}

/** Only an item of a list asks for a reading: nobody else hears it, and nothing is compared with it. */
function checkNoReading(checking: Checking, names: readonly string[], path: Path, text: string): void {
  for (const name of names.filter((one) => ownOf(checking.figures, one)?.read)) {
    const message = readOnly(name, 'only an item of a list asks for it')
    reportInText(checking, 'read.place', path, Math.max(0, text.indexOf(`<${name}>`)), message)
  }
}

/** What a station says: plain words with figures in them, in one text or in one for each phraseology. */
export function checkWording(checking: Checking, wording: WordingText | undefined, path: Path): void {
  if (wording === undefined) return
  const texts = typeof wording === 'string' ? [{ text: wording, at: path }] : bothOf(wording, path)
  for (const { text, at } of texts) {
    for (const match of text.matchAll(SYMBOLS)) {
      const [symbol, name] = match
      if (name === undefined) {
        const message = `${quoted(symbol)} is no part of what is said; use words and <figure>, brackets belong in a readBack`
        reportInText(checking, 'wording.malformed', at, match.index, message)
      } else if (!isKnown(checking, name)) {
        reportInText(checking, 'figure.unknown', at, match.index, unknownFigure(name), figureMeant(checking, name))
      } else checkNoReading(checking, [name], at, text)
    }
  }
}
const SYMBOLS = /<([^<>]*)>|[<>()[\]{}|]/g

function bothOf(wording: { readonly icao: string; readonly faa: string }, path: Path) {
  return (['icao', 'faa'] as const).map((each) => ({ text: wording[each], at: [...path, each] as Path }))
}

function reportInText(
  { source, problems }: Checking,
  code: string,
  path: Path,
  offset: number,
  message: string,
  meant?: Meant,
): void {
  add(problems, code, () => source.placeInText(path, offset), message, meant)
}
