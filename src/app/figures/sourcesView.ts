/** Sources side by side as the screen shows them: our own value, what each one states, whether they agree, what was settled. */

import { valueProblems } from '../../kernel/figures/entered.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import { mixedWords } from '../../kernel/figures/mixed.ts'
import type { ComputedFigure, FigureSet, Inputs, StatedValue } from '../../kernel/figures/model.ts'
import type { FigureDeclaration } from '../../kernel/figures/pack.ts'
import { isOutdated } from '../../kernel/figures/resolveStated.ts'
import { shownAs } from '../../kernel/figures/shown.ts'
import { ownSource, sourceWords } from '../../kernel/figures/sources.ts'
import { kindOf, type Value } from '../../kernel/kinds/kind.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Blanks } from '../../kernel/papers/asPrinted.ts'
import type { Problem } from '../../kernel/problem.ts'
import type { Revision } from '../run/revision.ts'
import type { Hidden } from './hiddenFigures.ts'

export interface SourceField {
  readonly source: string
  /** "flight computer". */
  readonly words: string
  /** As typed; empty while the value in force stands and is hidden. */
  readonly entered: string
  /** What counts while the field is empty, since the value in force is hidden. */
  readonly kept: Value | undefined
  readonly problems: readonly Problem[]
  /** Undefined where it states nothing. */
  readonly agrees: boolean | undefined
  /** "takeoff data, edition 2", where that leaves blank what is typed here; empty where it does not. */
  readonly blankOn: string
  /** "-184 kg"; empty where it would give a hidden value away. */
  readonly difference: string
}

export interface SourcedView {
  readonly name: string
  readonly label: string
  readonly unit: string
  readonly isText: boolean
  readonly own: 'computed' | 'entered'
  /** Our own value; undefined where there is none yet or it is hidden. */
  readonly shown: string | undefined
  readonly isHidden: boolean
  readonly fields: readonly SourceField[]
  /** How it is written, where that is not plain: a trim, a flap. */
  readonly written: string
  /** All that may count, once sources differ, each with its value, empty while it is hidden. */
  readonly choices: readonly (Pick<StatedValue, 'source' | 'value'> & { readonly shown: string })[]
  /**
   * `open`: differs and not settled; `reasonless`: chosen, and does not count without a reason; `outdated`: settled when sources stated something else; `followed`: the source counts
   * on which a figure was settled that it goes with; `mixed`: none counts, for that one states nothing.
   */
  readonly state: 'nothing' | 'agrees' | 'open' | 'reasonless' | 'outdated' | 'settled' | 'followed' | 'mixed'
  /** Why it is not worked out here, where that is so. */
  readonly because: string
}

/** Every figure that somebody besides us may state, in the pack's order. */
export function sourcedViews(
  pack: Pack,
  draft: Inputs,
  preview: FigureSet | undefined,
  inForce: Pick<Revision, 'inputs' | 'set'> | undefined,
  hidden: ReadonlyMap<string, Hidden>,
  blanks: ReadonlyMap<string, Blanks> = new Map(),
): SourcedView[] {
  return Object.values(pack.figures.declarations).flatMap((declaration): SourcedView[] => {
    const { name, label, unit, stated, measure } = declaration
    if (!stated) return []
    const figure = preview?.figures[name]
    const sources = figure?.sources ?? []
    // Both values are told once a difference was accepted, and so logged: one that is only typed would fetch a hidden value.
    const isHidden = hidden.has(name) && !differs(inForce?.set.figures[name]?.sources)
    const mixed = figure?.mixed
    const ours = mixed
      ? undefined
      : (sources.find(({ source }) => source === ownSource(declaration))?.value ?? figure?.value)
    return [
      {
        name,
        label,
        unit: unit ?? '',
        isText: measure === undefined,
        own: declaration.input ? 'entered' : 'computed',
        shown: isHidden || ours === undefined ? undefined : shownAs(declaration, ours),
        isHidden,
        fields: stated.sources.map((source) =>
          fieldOf(declaration, source, sources, { draft, inForce: inForce?.inputs, isHidden, blanks }),
        ),
        written: writtenAs(declaration),
        choices: differs(sources)
          ? sources.map(({ source, value }) => ({ source, value, shown: isHidden ? '' : shownAs(declaration, value) }))
          : [],
        state: stateOf(declaration, figure, draft),
        because: mixed ? mixedWords(mixed) : '',
      },
    ]
  })
}

const differs = (sources: readonly StatedValue[] = []): boolean => sources.some(({ within }) => !within)

interface Around {
  readonly draft: Inputs
  readonly inForce: Inputs | undefined
  readonly isHidden: boolean
  readonly blanks: ReadonlyMap<string, Blanks>
}

function fieldOf(
  declaration: FigureDeclaration,
  source: string,
  sources: readonly StatedValue[],
  { draft, inForce, isHidden, blanks }: Around,
): SourceField {
  const { name, measure } = declaration
  const given = draft.stated?.[source]?.[name]
  const kept = isHidden ? inForce?.stated?.[source]?.[name] : undefined
  const isKept = given === undefined || given === kept
  const compared = sources.find((one) => one.source === source)
  const { difference } = compared ?? {}
  const sign = difference !== undefined && difference > 0 ? '+' : ''
  return {
    source,
    words: sourceWords(source),
    entered: isKept ? '' : String(given),
    kept,
    problems: isKept ? [] : valueProblems(declaration, given).filter(({ severity }) => severity === 'error'),
    agrees: compared?.within,
    blankOn: given === undefined ? '' : blankWords(name, blanks.get(source)),
    difference: isHidden || !difference ? '' : `${sign}${formatMeasured(difference, measure, 1)}`,
  }
}

function blankWords(name: string, blanks: Blanks | undefined): string {
  if (!blanks?.figures.has(name)) return ''
  return blanks.edition === undefined ? blanks.title : `${blanks.title}, edition ${blanks.edition}`
}

function writtenAs({ spec }: FigureDeclaration): string {
  const { options } = kindOf(spec)
  if (options) return Object.keys(options(spec)).join(', ')
  if (spec.kind !== 'trim') return ''
  return spec.axis === 'pitch' ? 'minus for nose down' : 'minus for left'
}

function stateOf(
  { name }: FigureDeclaration,
  { sources = [], mixed, value }: Partial<ComputedFigure> = {},
  { settled }: Inputs,
): SourcedView['state'] {
  if (mixed && !differs(sources)) return value === undefined ? 'mixed' : 'followed'
  if (sources.length === 0) return 'nothing'
  if (!differs(sources)) return 'agrees'
  const settlement = settled?.[name]
  if (!settlement?.use) return 'open'
  if (isOutdated(settlement, sources)) return 'outdated'
  return settlement.reason.trim() === '' ? 'reasonless' : 'settled'
}
