/** The computed figures as the screen shows them: value and why; or that they are hidden. */

import { figureOf } from '../../kernel/figures/compute.ts'
import type { FigureSet, Reason } from '../../kernel/figures/model.ts'
import type { FigureDeclaration } from '../../kernel/figures/pack.ts'
import { roundingOf } from '../../kernel/figures/rounding.ts'
import { type Figure, kindOf, type Value } from '../../kernel/kinds/kind.ts'
import { showValue } from '../../kernel/kinds/table.ts'
import { roundTo } from '../../kernel/numbers/rounding.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { figuresRead, type Hidden } from './hiddenFigures.ts'

export interface ComputedView {
  readonly name: string
  readonly label: string
  readonly unit: string
  /** With its unit; undefined where it has no value or is hidden. */
  readonly shown: string | undefined
  readonly hidden: Hidden | undefined
  /** The spoken value is another one than in the revision in force. */
  readonly changed: boolean
  readonly preliminary: boolean
  /** An item reads it back; the others are workings. */
  readonly read: boolean
  /** Empty where it would give a hidden value away. */
  readonly why: readonly Reason[]
}

/** All computed figures, in the pack's order. */
export function computedViews(
  pack: Pack,
  preview: FigureSet | undefined,
  inForce: FigureSet | undefined,
  hidden: ReadonlyMap<string, Hidden>,
  situation: RunState['situation'],
): ComputedView[] {
  const read = figuresRead(pack, situation)
  return Object.values(pack.figures.declarations).flatMap((declaration): ComputedView[] => {
    const { name, label, unit, derived } = declaration
    if (!derived) return []
    const figure = preview?.figures[name]
    const hiding = hidden.get(name)
    const tells = hiding === undefined && derived.uses.every((taken) => !hidden.has(taken))
    return [
      {
        name,
        label,
        unit: unit ?? '',
        shown: hiding === undefined && preview ? shownIn(preview, name) : undefined,
        hidden: hiding,
        changed: inForce !== undefined && inForce.figures[name]?.value !== figure?.value,
        preliminary: figure?.preliminary ?? false,
        read: read.has(name),
        why: tells ? (figure?.why ?? []) : [],
      },
    ]
  })
}

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
