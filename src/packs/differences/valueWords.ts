/** What has become of a value, in an author's words. */

import { type Written, writtenInLine } from '../forms/written.ts'

export type Data = Readonly<Record<string, unknown>>

export const isData = (value: unknown): value is Data => value instanceof Object && !Array.isArray(value)
export const dataOf = (value: unknown): Data => (isData(value) ? value : {})
export const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : [])

/** The order of names says nothing, that of a list does. */
export function isSame(one: unknown, other: unknown): boolean {
  if (!(one instanceof Object) || !(other instanceof Object)) return Object.is(one ?? undefined, other ?? undefined)
  if (Array.isArray(one) !== Array.isArray(other)) return false
  const [a, b] = [one as Data, other as Data]
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => isSame(a[key], b[key]))
}

/** "alsoCalled" -> "also called". */
export function keyWords(key: string): string {
  return key.replace(/([a-z])([A-Z])/g, (_, one: string, other: string) => `${one} ${other.toLowerCase()}`)
}

const LONGEST = 90

/** As it is written in the pack, cut where it is long. */
export function shown(value: unknown): string {
  const text =
    typeof value === 'string' ? `“${value}”` : value === undefined || value === null ? 'nothing' : written(value)
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text
}

function written(value: unknown): string {
  return writtenInLine(value as Written)
}

export const count = (number: number, one: string, many = `${one}s`) => `${number} ${number === 1 ? one : many}`

/** What of these fields is another one now; `skipped` are told elsewhere. */
export function fieldsChanged(before: Data, after: Data, skipped: readonly string[] = []): string[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])]
  return keys
    .filter((key) => !skipped.includes(key) && !isSame(before[key], after[key]))
    .flatMap((key) => fieldChanged(keyWords(key), before[key], after[key]))
}

function fieldChanged(name: string, before: unknown, after: unknown): string[] {
  if (before === undefined || before === null) return [`${name} is new: ${shown(after)}`]
  if (after === undefined || after === null) return [`${name} is gone (was ${shown(before)})`]
  if (isData(before) && isData(after)) return fieldsChanged(before, after).map((one) => `${name}: ${one}`)
  if (isOfWords(before) && isOfWords(after)) return [membersChanged(name, before, after)]
  return [`${name} is now ${shown(after)} (was ${shown(before)})`]
}

const isOfWords = (value: unknown): value is readonly (string | number)[] =>
  Array.isArray(value) && value.every((one) => typeof one === 'string' || typeof one === 'number')

function membersChanged(name: string, before: readonly unknown[], after: readonly unknown[]): string {
  const more = after.filter((one) => !before.includes(one))
  const less = before.filter((one) => !after.includes(one))
  if (more.length === 0 && less.length === 0) return `${name} is now in another order: ${shown(after)}`
  const parts = [
    ...(more.length > 0 ? [`also ${more.map(shown).join(', ')}`] : []),
    ...(less.length > 0 ? [`no longer ${less.map(shown).join(', ')}`] : []),
  ]
  return `${name}: ${parts.join(', ')}`
}

/** Of two orders of the same names those that are not where they were; as few as can be. */
export function movedIn(before: readonly string[], after: readonly string[]): ReadonlySet<string> {
  const [one, other] = [before.filter((name) => after.includes(name)), after.filter((name) => before.includes(name))]
  // The longest run of names that are in the same order in both has stayed.
  const place = new Map(one.map((name, index) => [name, index]))
  const best: { readonly names: readonly string[]; readonly last: number }[] = []
  for (const name of other) {
    const at = place.get(name) ?? 0
    const fitting = best.filter(({ last }) => last < at)
    const longest = fitting.reduce<readonly string[]>(
      (most, { names }) => (names.length > most.length ? names : most),
      [],
    )
    best.push({ names: [...longest, name], last: at })
  }
  const stayed = best.reduce<readonly string[]>((most, { names }) => (names.length > most.length ? names : most), [])
  return new Set(other.filter((name) => !stayed.includes(name)))
}
