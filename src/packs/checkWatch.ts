/** Whether the calls of a watch hold together: each its own, times from an earlier one, groups side by side, values with a limit. */

import { KINDS } from '../kernel/kinds/kind.ts'
import { ownOf } from '../kernel/own.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { checkCondition } from './checkCondition.ts'
import { type Checking, checkFigure } from './checking.ts'
import { responseAt, sayingProblems } from './checkNotation.ts'
import type { WatchText } from './proceduresSchema.ts'
import { readOnly } from './readOnly.ts'
import { reporting } from './reporting.ts'
import type { Path, Source } from './source.ts'

export function checkWatch(checking: Checking, watch: WatchText, path: Path): void {
  checking.problems.push(...checkCalls(checking.source, watch, path))
  for (const [index, { when, value }] of watch.calls.entries()) {
    const at: Path = [...path, 'calls', index]
    checkCondition(checking, when, [...at, 'when'])
    for (const end of ['min', 'max'] as const) {
      const limit = value?.[end]
      if (typeof limit === 'string') checkLimit(checking, limit, [...at, 'value', end])
    }
  }
}

/** A figure that limits what is read out with a call is a number. */
function checkLimit(checking: Checking, name: string, path: Path): void {
  checkFigure(checking, name, path)
  const figure = ownOf(checking.figures, name)
  if (!figure) return
  if (figure.read) checking.report('value.limit', path, readOnly(name, 'a limit has to be known before'))
  else if (KINDS[figure.kind].values === 'text') {
    checking.report('value.limit', path, `${name} is no number, and limits nothing; name a figure that is one`)
  }
}

function checkCalls(source: Source, { begins, calls, abnormal }: WatchText, path: Path): Problem[] {
  const problems = sayingProblems(source, begins, [...path, 'begins'], 'begins')
  const report = reporting(source, problems)
  const ids: string[] = []
  const once = (id: string, at: Path) => {
    const isTwice = ids.some((other) => other.toLowerCase() === id.toLowerCase())
    if (isTwice) report('id.duplicate', at, `call ${quoted(id)} stands twice; each must be its own`)
    ids.push(id)
  }
  for (const [index, call] of calls.entries()) {
    const at: Path = [...path, 'calls', index]
    const earlier = ['begin', ...ids]
    once(call.call, [...at, 'call'])
    if (call.after !== undefined && !earlier.includes(call.after)) {
      const message = `no call before this one is called ${quoted(call.after)}`
      report('call.unknown', [...at, 'after'], message, { name: call.after, known: () => earlier })
    }
    const { notBefore, within } = call
    if (notBefore !== undefined && within !== undefined && notBefore >= within) {
      const message = `notBefore ${notBefore} leaves no time until within ${within}; it must be less`
      report('call.time', [...at, 'notBefore'], message)
    }
    checkValue(source, call, at, problems)
    const withValue = calls.slice(0, index).flatMap(({ call: id, value }) => (value ? id : []))
    for (const [place, name] of (call.value?.between ?? []).entries()) {
      if (withValue.includes(name)) continue
      const message = `no call before this one that reads out a value is called ${quoted(name)}`
      report('call.unknown', [...at, 'value', 'between', place], message, { name, known: () => withValue })
    }
  }
  checkGroups(calls, (index, message) => report('call.group', [...path, 'calls', index, 'group'], message))
  for (const [index, { abnormal: id, say }] of abnormal.entries()) {
    const at: Path = [...path, 'abnormal', index]
    once(id, [...at, 'abnormal'])
    problems.push(...sayingProblems(source, say, [...at, 'say']))
  }
  return problems
}

/** Calls of a group stand side by side, or the calls between them would have to wait for it and it for them. */
function checkGroups(calls: WatchText['calls'], report: (index: number, message: string) => void): void {
  for (const [index, { group }] of calls.entries()) {
    if (group === undefined) continue
    const first = calls.findIndex((call) => call.group === group)
    if (calls.slice(first, index).some((call) => call.group !== group)) {
      report(index, `group ${quoted(group)} is broken by another call; its calls must stand side by side`)
    } else if (calls.filter((call) => call.group === group).length === 1) {
      report(index, `group ${quoted(group)} has one call; any order needs at least two`)
    }
  }
}

function checkValue(source: Source, call: WatchText['calls'][number], path: Path, problems: Problem[]): void {
  const { value, say } = call
  const { min, max } = value ?? {}
  const range = (message: string) =>
    problems.push({ code: 'value.range', message, place: source.place([...path, 'value']), severity: 'error' })
  if (value && min === undefined && max === undefined) range('value has no limit; give min, max or both')
  if (typeof min === 'number' && typeof max === 'number' && min >= max)
    range(`the range from ${min} to ${max} is empty; min must be less than max`)
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
