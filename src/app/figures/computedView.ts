/** The computed figures as the screen shows them: value and why; or that they are hidden. */

import type { FigureSet, Reason } from '../../kernel/figures/model.ts'
import { shownIn } from '../../kernel/figures/shown.ts'
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
