/** What all checks of procedures.yaml use: one file on its way, its names, and where a mistake stands. */

import type { Problem } from '../kernel/problem.ts'
import { runTogether } from './checkApart.ts'
import { responseAt } from './checkNotation.ts'
import { conditionOf, type When } from './conditions.ts'
import type { WordingText } from './exchangeSchema.ts'
import type { FiguresText } from './figuresSchema.ts'
import { didYouMean } from './nearest.ts'
import type { PackText } from './packSchema.ts'
import type { ItemText } from './proceduresSchema.ts'
import type { Path, Source } from './source.ts'

/** One file on its way: what there is to name, and what was wrong. */
export interface Checking {
  readonly source: Source
  readonly problems: Problem[]
  /** Undefined where pack.yaml could not be read: then its situations are not checked. */
  readonly pack: PackText | undefined
  /** The pack's figures; undefined where that file could not be read. */
  readonly figures: FiguresText['figures'] | undefined
  /** All that an interlock may come after. */
  readonly events: readonly string[]
  /** Clearances that a line or an interlock waits for. */
  readonly awaited: readonly string[]
}

export function report(
  { source, problems }: Checking,
  code: string,
  path: Path,
  message: string,
  severity: Problem['severity'] = 'error',
): void {
  problems.push({ code, message, place: source.place(path), severity })
}

export function once(checking: Checking, seen: Set<string>, id: string, what: string, path: Path): void {
  const key = id.toLowerCase()
  if (seen.has(key)) report(checking, 'id.duplicate', path, `${what} "${id}" stands twice; each must be its own`)
  seen.add(key)
}

function isKnown({ figures }: Checking, name: string): boolean {
  return !figures || Object.hasOwn(figures, name)
}

function unknownFigure({ figures }: Checking, name: string): string {
  return `no figure is called "${name}"${didYouMean(name, Object.keys(figures ?? {}))}`
}

export function checkFigure(checking: Checking, name: string, path: Path): void {
  if (!isKnown(checking, name)) report(checking, 'figure.unknown', path, unknownFigure(checking, name))
}

export function checkCondition(checking: Checking, when: When, path: Path): void {
  const situations = checking.pack?.situations
  if (!situations) return
  for (const [name, values] of Object.entries(conditionOf(when) ?? {})) {
    const at: Path = [...path, name]
    const options = Object.hasOwn(situations, name) ? Object.keys(situations[name]?.options ?? {}) : undefined
    if (!options) {
      const known = Object.keys(situations)
      report(checking, 'situation.unknown', at, `no situation is called "${name}"${didYouMean(name, known)}`)
      continue
    }
    for (const value of values.filter((one) => !options.includes(one))) {
      report(checking, 'situation.value', at, `situation ${name} has no "${value}"${didYouMean(value, options)}`)
    }
  }
}

export function checkInterlocks(checking: Checking, interlocks: ItemText['interlocks'], path: Path): void {
  for (const [index, { after }] of (interlocks ?? []).entries()) {
    if (checking.events.includes(after)) continue
    const message = `nothing is called "${after}"${didYouMean(after, checking.events)}`
    report(checking, 'interlock.unknown', [...path, 'interlocks', index, 'after'], message)
  }
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
    reportInText(checking, 'figure.unknown', path, offset, unknownFigure(checking, name))
  }
  const [one, other] = runTogether(response, checking.figures) ?? []
  if (one !== undefined) {
    const message = `${what}: nobody hears where <${one}> ends and <${other}> begins; make them one figure of the kind route, or put a word between them`
    reportInText(checking, 'figures.together', path, Math.max(0, text.indexOf(`<${one}>`)), message)
  }
  return named
}

/** What a station says: plain words with figures in them, in one text or in one for each phraseology. */
export function checkWording(checking: Checking, wording: WordingText | undefined, path: Path): void {
  if (wording === undefined) return
  const texts = typeof wording === 'string' ? [{ text: wording, at: path }] : bothOf(wording, path)
  for (const { text, at } of texts) {
    for (const match of text.matchAll(SYMBOLS)) {
      const [symbol, name] = match
      if (name === undefined) {
        const message = `"${symbol}" is no part of what is said; use words and <figure>, brackets belong in a readBack`
        reportInText(checking, 'wording.malformed', at, match.index, message)
      } else if (!isKnown(checking, name)) {
        reportInText(checking, 'figure.unknown', at, match.index, unknownFigure(checking, name))
      }
    }
  }
}
const SYMBOLS = /<([^<>]*)>|[<>()[\]{}|]/g

function bothOf(wording: { readonly icao: string; readonly faa: string }, path: Path) {
  return (['icao', 'faa'] as const).map((each) => ({ text: wording[each], at: [...path, each] as Path }))
}

function reportInText({ source, problems }: Checking, code: string, path: Path, offset: number, message: string): void {
  problems.push({ code, message, place: source.placeInText(path, offset), severity: 'error' })
}
