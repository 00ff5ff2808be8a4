/** Whether the calls of a watch hold together: each its own, limits from an earlier one, values asked for where they are said. */

import type { Problem } from '../kernel/problem.ts'
import { responseAt, sayingProblems } from './checkNotation.ts'
import { didYouMean } from './nearest.ts'
import type { WatchText } from './proceduresSchema.ts'
import type { Path, Source } from './source.ts'

export function checkCalls(source: Source, { begins, calls, abnormal }: WatchText, path: Path): Problem[] {
  const problems = sayingProblems(source, begins, [...path, 'begins'], 'begins')
  const report = (code: string, at: Path, message: string) =>
    problems.push({ code, message, place: source.place(at), severity: 'error' })
  const ids: string[] = []
  const once = (id: string, at: Path) => {
    const isTwice = ids.some((other) => other.toLowerCase() === id.toLowerCase())
    if (isTwice) report('id.duplicate', at, `call "${id}" stands twice; each must be its own`)
    ids.push(id)
  }
  for (const [index, call] of calls.entries()) {
    const at: Path = [...path, 'calls', index]
    const earlier = ['begin', ...ids]
    once(call.call, [...at, 'call'])
    if (call.after !== undefined && !earlier.includes(call.after)) {
      const message = `no call before this one is called "${call.after}"${didYouMean(call.after, earlier)}`
      report('call.unknown', [...at, 'after'], message)
    }
    checkValue(source, call, at, problems)
  }
  for (const [index, { abnormal: id, say }] of abnormal.entries()) {
    const at: Path = [...path, 'abnormal', index]
    once(id, [...at, 'abnormal'])
    problems.push(...sayingProblems(source, say, [...at, 'say']))
  }
  return problems
}

function checkValue(source: Source, call: WatchText['calls'][number], path: Path, problems: Problem[]): void {
  const { value, say } = call
  if (value && value.min >= value.max) {
    const message = `the range from ${value.min} to ${value.max} is empty; min must be less than max`
    problems.push({ code: 'value.range', message, place: source.place([...path, 'value']), severity: 'error' })
  }
  for (const [index, text] of say.entries()) {
    const at: Path = [...path, 'say', index]
    const response = responseAt(source, text, at, 'call')
    if (!('figures' in response)) {
      problems.push(...response)
      continue
    }
    const names = response.figures
    const isRight = value ? names.length === 1 && names[0] === 'value' : names.length === 0
    if (isRight) continue
    const message = value ? 'a call with a value says it once, as <value>' : 'a call without a value has no <figure>'
    problems.push({ code: 'call.value', message, place: source.place(at), severity: 'error' })
  }
}
