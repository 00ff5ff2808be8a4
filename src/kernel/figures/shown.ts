/** Values as screens and papers show them: with their units, and no unit twice. */

import { type Figure, kindOf, type Value } from '../kinds/kind.ts'
import { showValue } from '../kinds/table.ts'
import { roundTo } from '../numbers/rounding.ts'
import { figureOf } from './compute.ts'
import type { FigureSet } from './model.ts'
import type { FigureDeclaration } from './pack.ts'
import { roundingOf } from './rounding.ts'

/** "24,620 kg"; undefined where the figure has no value. */
export function shownIn(set: FigureSet, name: string): string | undefined {
  const figure = figureOf(set, name)
  return figure && withUnit(figure, set.figures[name])
}

/** A value that somebody states, as the figure itself would be shown: "4.3 up". */
export function shownAs(declaration: FigureDeclaration, value: Value): string {
  const round = typeof value === 'number' ? roundingOf(declaration) : undefined
  const spoken = round ? roundTo(Number(value), round) : value
  return withUnit({ ...declaration.spec, value: spoken } as Figure, declaration)
}

/** Kinds that show their own unit have none beside them, and a direction stands for one. */
function withUnit(figure: Figure, { unit = '' }: { readonly unit?: string } = {}): string {
  const kind = kindOf(figure)
  if (kind.values === 'text') return showValue(figure)
  const text = kind.isGrouped ? grouped(showValue(figure)) : showValue(figure)
  if (typeof kind.measure === 'object') return `${text.replace(/ ?%$/, '')} ${unit}`.trim()
  return kind.direction || text.endsWith(unit) ? text : `${text} ${unit}`
}

const grouped = (text: string) => text.replace(/\B(?=(\d{3})+(?!\d))/g, ',')
