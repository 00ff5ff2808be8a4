/** Where the wrong values of a negative answer came from, as far as this run's figures show. */

import { compute } from '../figures/compute.ts'
import { neighboursOf } from '../figures/neighbours.ts'
import type { Value } from '../kinds/kind.ts'
import { isNumberToken, type Transcript, textOf, tokensOf } from '../numbers/tokens.ts'
import type { Pack } from '../pack/checklist.ts'
import { figuresFor } from '../pack/place.ts'
import { readableFigures } from '../pack/readable.ts'
import { findCauses, type RevisionValues } from '../response/causes.ts'
import type { Cause, Judgement } from '../response/model.ts'
import { readOff } from '../response/readOff.ts'
import { acceptedAs } from '../run/core/accepted.ts'
import type { RunState } from '../run/core/state.ts'

/** For the debrief: it is kept in the log and never spoken before the answer is right. */
export function withCauses(pack: Pack, state: RunState, judged: Judgement, heard: Transcript): Judgement {
  const other = judged.verdict === 'negative' ? ofAnother(pack, judged, heard) : undefined
  const judgement = other ?? judged
  const isRead = (name: string) => pack.figures.declarations[name]?.read !== undefined
  const wrong = judgement.parts.filter(
    ({ kind, state, name }) => kind === 'figure' && state === 'wrong' && !isRead(name),
  )
  if (judgement.verdict !== 'negative' || wrong.length === 0) return judgement
  const causes = wrong.flatMap(({ name, read }) => (read === undefined ? [] : causesOf(pack, state, name, read)))
  if (other)
    return { ...other, causes: [...(other.causes ?? []), ...causes.filter(({ cause }) => cause !== 'otherFigure')] }
  return causes.length > 0 ? { ...judgement, causes } : judgement
}

/** "V two one four one" where another speed is asked for: the "two" is of the name, and the value of that. */
function ofAnother(pack: Pack, judgement: Judgement, { text, tokens }: Transcript): Judgement | undefined {
  const [wrong, ...more] = judgement.parts.filter(({ kind, state }) => kind === 'figure' && state === 'wrong')
  const declared = wrong && pack.figures.declarations[wrong.name]
  if (!declared || more.length > 0) return undefined
  const own = new Set(judgement.parts.map(({ name }) => name))
  for (const { name, label, spec } of Object.values(pack.figures.declarations)) {
    const words = tokensOf(label)
    // Only a name that ends in a number can be taken for a part of one.
    if (own.has(name) || spec.kind !== declared.spec.kind || !words.some(isNumberToken)) continue
    const at = tokens.findIndex((_, from) => words.every(({ canon }, index) => tokens[from + index]?.canon === canon))
    const rest = { text, tokens: tokens.slice(at + words.length) }
    const read = at < 0 ? undefined : readOff(declared.spec, [], { heard: rest })
    if (read === undefined) continue
    const parts = judgement.parts.map((part) => (part === wrong ? { ...part, read, heard: textOf(rest) } : part))
    return { ...judgement, parts, causes: [{ cause: 'otherFigure', detail: label }] }
  }
  return undefined
}

/** What a wrong value of a figure fits, besides being wrong. */
export function causesOf(pack: Pack, state: RunState, figure: string, read: Value): readonly Cause[] {
  const readable = readableFigures(pack)
  const declared = Object.values(pack.figures.declarations).filter(({ name }) => name === figure || readable.has(name))
  const figures = figuresFor(
    pack,
    state.values,
    declared.map(({ name }) => name),
  )
  const labels = Object.fromEntries(declared.map(({ name, label }) => [name, label]))
  const neighbours = state.inputs ? neighboursOf(pack.figures, compute(pack.figures, state.inputs), figure) : []
  return findCauses({ figure, read, figures, labels, history: earlier(pack, state, figure), neighbours })
}

/**
 * The revisions that brought another value of the figure, by what they are to it. A load sheet has no altimeter setting:
 * the name of the sheet that a revision came on says nothing about each of its figures, a paper that prints it does.
 */
function earlier({ papers }: Pack, state: RunState, figure: string): RevisionValues[] {
  const { history } = state
  const [paper, ...others] = papers.filter(({ lines }) =>
    lines.some((line) => 'figure' in line && line.figure === figure),
  )
  const where = paper && others.length === 0 ? ` (${paper.title})` : ''
  return history
    .filter(({ values }, at) => at === 0 || history[at - 1]?.values[figure] !== values[figure])
    .map((one) => ({ ...one, label: `earlier figures, revision ${acceptedAs(state, one.revision)}${where}` }))
}
