/** A paper issued anew with one value changed: what an instructor can change on the papers that lie on the trainee's table. */

import { capital } from '../../kernel/capital.ts'
import { valueProblems } from '../../kernel/figures/entered.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { shownAs } from '../../kernel/figures/shown.ts'
import type { Value } from '../../kernel/kinds/kind.ts'
import { kindOf } from '../../kernel/kinds/kind.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import type { Paper } from '../../kernel/pack/paper.ts'
import { nextEdition } from '../../kernel/papers/corrected.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { enteredNumber, enteredValue } from '../figures/fields.ts'

export interface PaperValue {
  /** "takeoffData figure takeoffFlap". */
  readonly key: string
  readonly paper: string
  readonly label: string
  /** As it stands on the paper. */
  readonly text: string
  /** Positions, for a choice. */
  readonly options?: readonly string[]
}

type Ground = Pick<RunState, 'sheets' | 'inputs' | 'script'>

const sheetOf = ({ sheets, inputs }: Ground): Inputs | undefined => sheets.at(-1)?.inputs ?? inputs

/** Of each paper in turn; nothing that a station gives in this run, and no number of an edition. */
export function paperValues(pack: Pack, run: Ground): PaperValue[] {
  const sheet = sheetOf(run)
  if (!sheet) return []
  return pack.papers.flatMap((paper) =>
    paper.lines.flatMap((line): PaperValue[] => {
      if ('load' in line) {
        const station = pack.figures.stations.find(({ name }) => name === line.load)
        const load = ownOf(sheet.loads, line.load)
        if (load === undefined) return []
        const key = `${paper.id} load ${line.load}`
        return [{ key, paper: paper.title, label: line.label ?? station?.label ?? line.load, text: String(load) }]
      }
      const declaration = 'figure' in line ? ownOf(pack.figures.declarations, line.figure) : undefined
      if (!declaration || !('figure' in line) || (declaration.given && run.script)) return []
      const value = valueOn(paper, sheet, line.figure)
      if (value === undefined || line.figure === paper.edition) return []
      const { options } = kindOf(declaration.spec)
      return [
        {
          key: `${paper.id} figure ${line.figure}`,
          ...{ paper: paper.title, label: line.label ?? declaration.label, text: shownAs(declaration, value) },
          ...(options && { options: Object.keys(options(declaration.spec)) }),
        },
      ]
    }),
  )
}

const valueOn = (paper: Paper, sheet: Inputs, name: string): Value | undefined =>
  ownOf(ownOf(sheet.stated, paper.source ?? ''), name) ?? ownOf(sheet.values, name)

/** The sheet with this value typed in place of what it says, and in words what is new; or why it cannot be. */
export function newEdition(
  pack: Pack,
  run: Ground,
  key: string,
  typed: string,
): { readonly sheet: Inputs; readonly words: string } | { readonly wrong: string } {
  const [paperId, kind, name = ''] = key.split(' ')
  const sheet = sheetOf(run)
  const paper = pack.papers.find(({ id }) => id === paperId)
  if (!sheet || !paper) return { wrong: 'Choose what is to change.' }
  if (kind === 'load') {
    const load = enteredNumber(typed)
    if (load === undefined || load < 0) return { wrong: 'A weight is needed, as a number.' }
    const label = pack.figures.stations.find((one) => one.name === name)?.label ?? name
    return issued(pack, paper, { ...sheet, loads: { ...sheet.loads, [name]: load } }, `${label} ${load}`)
  }
  const declaration = ownOf(pack.figures.declarations, name)
  const value = declaration && enteredValue(declaration.spec, typed, declaration.measure)
  if (!declaration || value === undefined) return { wrong: 'A value is needed.' }
  const [problem] = valueProblems(declaration, value)
  if (problem) return { wrong: `${capital(problem.message)}.` }
  const source = paper.source ?? ''
  const stated = ownOf(sheet.stated, source)
  const isStated = stated !== undefined && ownOf(stated, name) !== undefined
  const changed: Inputs = {
    ...sheet,
    ...(ownOf(sheet.values, name) !== undefined && { values: { ...sheet.values, [name]: value } }),
    ...(isStated && { stated: { ...sheet.stated, [source]: { ...stated, [name]: value } } }),
  }
  return issued(pack, paper, changed, `${declaration.label} ${shownAs(declaration, value)}`)
}

const issued = (pack: Pack, { source }: Paper, sheet: Inputs, words: string) => ({
  sheet: source === undefined ? sheet : nextEdition(pack, sheet, source),
  words,
})
