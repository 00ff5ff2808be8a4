/** Figures that nothing uses, codes that no set can show, arms in the other unit. */

import { namesIn } from '../../kernel/figures/condition.ts'
import type { Problem } from '../../kernel/problem.ts'
import { convert } from '../../kernel/units.ts'
import { derivationOf } from '../buildFigures.ts'
import { conditionOf, type When } from '../conditions.ts'
import type { FiguresText, FigureText } from '../figuresSchema.ts'
import type { Path } from '../source.ts'
import { type Advise, advising, type Written } from './written.ts'

export function adviseFigures(written: Written): Problem[] {
  const problems: Problem[] = []
  const { source, value } = written.figures
  const advise = advising(source, problems)
  const used = usedIn(written)
  for (const [name, figure] of Object.entries(value.figures)) {
    const at: Path = ['figures', name]
    const origin = (['entered', 'given', 'read'] as const).find((one) => figure[one])
    if (origin && !used.has(name)) {
      advise(
        'unused',
        [...at, origin],
        `${name} is ${origin}, and no figure, item, exchange or paper uses it; use it or leave it out`,
      )
    }
    adviseCode(name, figure, at, advise)
  }
  adviseArms(written, advise)
  return problems
}

/** A transponder has no 8 and no 9: ICAO Annex 10 volume IV, 3.1.1.6 (from memory). */
function adviseCode(name: string, figure: FigureText, at: Path, advise: Advise): void {
  if (figure.kind !== 'digits' || figure.length !== 4 || figure.highest !== undefined) return
  if (!/transponder|squawk/i.test([name, figure.label, ...figure.alsoCalled].join(' '))) return
  advise('code', at, `the digits of a transponder code go to 7; write highest: 7, or ${name} takes 8 and 9 for right`)
}

/** Names of figures that anything in the pack uses. */
function usedIn({ figures, procedures, papers }: Written): ReadonlySet<string> {
  const used = new Set<string>(figures.value.orders.flat())
  for (const figure of Object.values(figures.value.figures)) {
    const { derived, limits, given, read } = figure
    for (const bound of [read?.min, read?.max]) if (typeof bound === 'string') used.add(bound)
    for (const name of derived ? derivationOf(derived).uses : []) used.add(name)
    for (const bound of [limits?.min ?? [], limits?.max ?? []].flat()) if (typeof bound === 'string') used.add(bound)
    if (given && 'by' in given.from) used.add(given.from.by)
  }
  for (const trap of figures.value.deal?.traps ?? []) for (const name of [trap.figure, ...trap.also]) used.add(name)
  collect(procedures.value, used)
  for (const { lines, edition } of Object.values(papers?.value.papers ?? {})) {
    if (edition !== undefined) used.add(edition)
    for (const line of lines) if ('figure' in line) used.add(line.figure)
  }
  return used
}

/** Figures in texts, and those that stand in `sets` and `restsOn`. */
function collect(value: unknown, used: Set<string>): void {
  if (typeof value === 'string') for (const [, name = ''] of value.matchAll(/<\s*([^<>]*?)\s*>/g)) used.add(name)
  if (typeof value !== 'object' || value === null) return
  for (const [key, inner] of Object.entries(value)) {
    if (key === 'when') for (const name of namesIn(conditionOf(inner as When))) used.add(name)
    else if ((key === 'min' || key === 'max') && typeof inner === 'string') used.add(inner)
    else if (key === 'sets' || key === 'restsOn') for (const name of inner as readonly string[]) used.add(name)
    else collect(inner, used)
  }
}

/** An arm far from all others that in the other unit would lie among them. */
function adviseArms({ pack, figures }: Written, advise: Advise): void {
  const { arm: own } = pack.value.units
  const other = own === 'm' ? 'in' : 'm'
  for (const [name, { arm }] of Object.entries(figures.value.stations)) {
    const others = armsOf(figures.value, own, name)
    if (others.length < 2) continue
    const [least, most] = [Math.min(...others), Math.max(...others)]
    const meant = Math.round(convert(arm, other, own) * 100) / 100
    if ((arm >= least && arm <= most) || meant < least || meant > most) continue
    const message = `arm ${arm} ${own} is far from all others (${least} to ${most}); if it is ${arm} ${other}, write ${meant}`
    advise('arm', ['stations', name, 'arm'], message)
  }
}

/** Of stations, tanks and envelopes, in the pack's unit. */
function armsOf({ stations, tanks, envelopes }: FiguresText, own: string, but: string): number[] {
  const limits = Object.values(envelopes).flatMap(({ unit, limits }) => (unit === own ? limits : []))
  return [
    ...Object.entries(stations).flatMap(([name, { arm }]) => (name === but ? [] : arm)),
    ...tanks
      .flatMap((group) => Object.values(group))
      .flatMap(({ arm }) => (typeof arm === 'number' ? arm : arm.map((row) => row.arm))),
    ...limits.flatMap(({ forward, aft }) => [forward, aft]),
  ]
}
