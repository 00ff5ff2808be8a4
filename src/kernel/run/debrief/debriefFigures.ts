/** What the debrief has of a revision besides its name: what was read aloud, settled and why, warned of and acknowledged. */

import { compute } from '../../figures/compute.ts'
import type { ComputedFigure, Settlement } from '../../figures/model.ts'
import { shownAs } from '../../figures/shown.ts'
import { sourceChosen, sourceHere, sourceWords } from '../../figures/sources.ts'
import type { Value } from '../../kinds/kind.ts'
import { showValue } from '../../kinds/table.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import { acceptedAs } from '../core/accepted.ts'
import { findTurn } from '../talk/talk.ts'
import { type DebriefChange, type Moment, reopenedBetween, type Tally } from './tally.ts'

/** A revision, with what it opened again. */
export function tellRevision(tally: Tally, moment: Moment<'figuresRevised'>): void {
  const { pack, event, before, after } = moment
  const { revision, status, label, t, takenOver = false } = event
  const reopened = reopenedBetween(before, after).map((id) => findItem(pack, id).item.challenge)
  const givenBy = event.takenDown === undefined ? undefined : findTurn(pack, event.takenDown).turn.label
  tally.revisions.push({
    ...{
      revision: acceptedAs(after, revision),
      status,
      label,
      t,
      takenOver,
      reopened,
      changed: before.inputs ? changedIn(moment) : [],
    },
    ...(givenBy !== undefined && { givenBy }),
    notes: notesOf(tally, moment),
  })
}

function changedIn({ pack, event }: Moment<'figuresRevised'>): DebriefChange[] {
  return event.changes.flatMap(({ figure, label, from, to, spoken }) => {
    const declared = pack.figures.declarations[figure]
    if (!spoken || !declared) return []
    const shown = (value: Value | undefined) => (value === undefined ? 'none' : showValue({ ...declared.spec, value }))
    return [{ label, from: shown(from), to: shown(to) }]
  })
}

/** "takeoff trim, V one", with what they were and are where that may be told. */
export const changeWords = (changed: readonly DebriefChange[]): string =>
  changed.map(({ label, from, to }) => (from === undefined ? label : `${label} ${from}, now ${to}`)).join('; ')

function notesOf({ readAloud }: Tally, { pack, event, before }: Moment<'figuresRevised'>): string[] {
  const label = (name: string) => pack.figures.declarations[name]?.label ?? name
  const read = readAloud?.figure === event.crossChecked ? readAloud : undefined
  const outcome = read && event.values[read.figure] === undefined ? 'differs' : 'agrees'
  const made = Object.entries(event.inputs.settled ?? {}).filter(
    // One that stood before belongs to the revision that made it.
    ([name, settlement]) => settlement.use !== '' && !isSame(before.inputs?.settled?.[name], settlement),
  )
  const { figures } = made.length > 0 ? compute(pack.figures, event.inputs) : { figures: {} }
  return [
    ...(read ? [`${label(read.figure)} read from the ${sourceWords(read.source)}: ${outcome}`] : []),
    ...made.map(([name, settlement]) => settledWords(pack, ownOf(figures, name), label(name), settlement)),
    ...event.warnings.map((warning) => `warning: ${warning}`),
  ]
}

/** Both values and where each stands, which one the pilot chose, and why. */
function settledWords(
  { figures }: Pack,
  figure: ComputedFigure | undefined,
  label: string,
  { use, reason }: Settlement,
): string {
  const declared = figure && figures.declarations[figure.name]
  const values = (figure?.sources ?? []).map(
    ({ source, value }) => `${sourceHere(source)} ${declared ? shownAs(declared, value) : value}`,
  )
  const chose = `you chose ${sourceChosen(use)}`
  const why = reason.trim() === '' ? `${chose} without a reason, so it did not count` : `${chose}: “${reason.trim()}”`
  return `${label}: ${[values.join(', '), why].filter((part) => part !== '').join('; ')}`
}

const isSame = (one: Settlement | undefined, other: Settlement): boolean =>
  JSON.stringify(one) === JSON.stringify(other)

/** What the pilot worked out, noted with the revision that it was for. */
export function tellOwnValue({ revisions }: Tally, { pack, event }: Moment<'ownValueSaid'>): void {
  const { figure, value, isRight, causes } = event
  const declared = pack.figures.declarations[figure]
  if (!declared) return
  const outcome = isRight ? 'agrees' : ['differs', ...causes.map(({ detail }) => detail)].join('; it fits ')
  note(revisions, [`${declared.label} worked out: ${showValue({ ...declared.spec, value })}, ${outcome}`])
}

function note(revisions: Tally['revisions'], notes: readonly string[]): void {
  const last = revisions.at(-1)
  if (last) revisions.splice(-1, 1, { ...last, notes: [...last.notes, ...notes] })
}

/** Warnings that this command acknowledged, noted with the revision that had them. */
export function tellAcknowledged({ revisions }: Tally, { before, after }: Moment<'commanded'>): void {
  if (before.warnings.length === 0 || after.warnings.length > 0) return
  note(
    revisions,
    before.warnings.map((warning) => `acknowledged: ${warning}`),
  )
}
