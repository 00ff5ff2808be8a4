/** Whether conditions name situations and figures that there are, with values that these may have. */

import { isValues, type Size } from '../kernel/figures/condition.ts'
import { kindOf } from '../kernel/kinds/kind.ts'
import { ownOf } from '../kernel/own.ts'
import { quoted } from '../kernel/quoted.ts'
import { measureOf, specOf } from './buildFigures.ts'
import { conditionOf, isJoint, type When } from './conditions.ts'
import type { FigureText } from './figuresSchema.ts'
import { readOnly } from './readOnly.ts'
import type { Report } from './reporting.ts'
import { type Named, optionsOf } from './situations.ts'
import type { Path } from './source.ts'

interface Ground extends Omit<Named, 'pack'> {
  /** Undefined where pack.yaml could not be read: then nothing is known of its situations. */
  readonly pack: Named['pack'] | undefined
  readonly report: Report
}

export function checkCondition(ground: Ground, when: When, path: Path): void {
  const { pack, figures, report } = ground
  if (!pack || !when) return
  for (const [joint, at] of [
    ['any', when.any],
    ['all', when.all],
  ] as const) {
    for (const [index, one] of (at ?? []).entries()) checkCondition(ground, one, [...path, joint, index])
  }
  checkCondition(ground, when.not, [...path, 'not'])
  for (const [name, demand] of Object.entries(conditionOf(when)?.each ?? {})) {
    if (isJoint(name)) continue
    const at: Path = [...path, name]
    const options = optionsOf(pack, name)
    const figure = ownOf(figures, name)
    if (options.length > 0) checkSituation(name, options, demand, at, report)
    else if (figure) checkFigureDemand(name, figure, demand, at, report)
    else if (figures) {
      const known = () => [...Object.keys(pack.situations), ...(isValues(demand) ? [] : Object.keys(figures))]
      const what = isValues(demand) ? 'situation' : 'figure'
      report('situation.unknown', at, `no ${what} is called ${quoted(name)}`, { name, known })
    }
  }
}

function checkSituation(
  name: string,
  options: readonly string[],
  demand: readonly string[] | Size,
  at: Path,
  report: Report,
): void {
  if (!isValues(demand)) {
    report(
      'situation.size',
      at,
      `${name} is a situation and has no size; write one of ${options.map(quoted).join(', ')}`,
    )
    return
  }
  for (const value of demand.filter((one) => !options.includes(one))) {
    report('situation.value', at, `situation ${name} has no ${quoted(value)}`, { name: value, known: () => options })
  }
}

function checkFigureDemand(
  name: string,
  figure: FigureText,
  demand: readonly string[] | Size,
  at: Path,
  report: Report,
): void {
  if (figure.read) {
    report('read.condition', at, readOnly(name, 'no condition can hang on it'))
    return
  }
  const isNumber = measureOf(figure) !== undefined
  if (!isValues(demand)) {
    if (!isNumber)
      report(
        'condition.size',
        at,
        `${name} (${figure.kind}) is no number; write the values that count: {${name}: [...]}`,
      )
    else if (Object.keys(demand).length === 0)
      report('condition.size', at, `${name}: say below, above, atLeast or atMost`)
    return
  }
  const spec = specOf(figure)
  const options = kindOf(spec).options?.(spec)
  for (const value of demand) {
    if (options && !Object.hasOwn(options, value)) {
      report('condition.value', at, `${name} has no ${quoted(value)}`, {
        name: value,
        known: () => Object.keys(options),
      })
    } else if (isNumber && !Number.isFinite(Number(value))) {
      report(
        'condition.value',
        at,
        `${name} is a number, ${quoted(value)} is none; write {below: 5}, {atLeast: 5} or the number in quotes`,
      )
    }
  }
}
