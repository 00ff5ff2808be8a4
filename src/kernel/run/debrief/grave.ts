/** What weighs most in a debrief by what the pack says of it: critical items and figures, and read-backs by which the aircraft moves. */

import type { KindSpec } from '../../kinds/kind.ts'
import { ownOf } from '../../own.ts'
import type { Pack } from '../../pack/checklist.ts'
import { listsOf } from '../../pack/place.ts'
import type { Part } from '../../response/model.ts'
import { exchangesOf } from '../talk/talk.ts'
import type { DebriefTransmission, DebriefTry } from './debriefTry.ts'

/** What the pack calls critical: items, and the figures that are said in them. */
export function criticalOf(pack: Pack): { readonly items: ReadonlySet<string>; readonly figures: ReadonlySet<string> } {
  const items = listsOf(pack)
    .flatMap(({ entries }) => entries)
    .filter((entry) => entry.type === 'item' && entry.critical)
  const figures = items
    .flatMap((item) => ('responses' in item ? item.responses : []))
    .flatMap((one) => one.response.figures)
  return { items: new Set(items.map(({ id }) => id)), figures: new Set(figures) }
}

/** A transponder code is four octal digits. */
const isCodeOrSetting = (spec: KindSpec | undefined) =>
  spec?.kind === 'altimeter' || (spec?.kind === 'digits' && spec.length === 4 && spec.highest === 7)

/** A wrong altimeter setting or code: by these the aircraft is kept apart from the ground and from others. */
export const isOfTraffic = (pack: Pack, { judgement: { parts } }: DebriefTry): boolean =>
  parts.some(
    ({ name, kind, state }) =>
      kind === 'figure' && state === 'wrong' && isCodeOrSetting(ownOf(pack.figures.declarations, name)?.spec),
  )

/** As they stand in a read-back: "line up and wait", "cleared for takeoff". */
const MOVEMENT = /\b(hold|holding) short\b|\b(cross|crossing)\b|\b(line|lining) up\b|\btake ?off\b/

/** A read-back that takes the aircraft onto a runway, or over one, where it was not sent. */
export function isOfRunway(pack: Pack, id: string, { part, judgement: { parts } }: DebriefTransmission): boolean {
  const turn = exchangesOf(pack)
    .flatMap(({ turns }) => turns)
    .find((one) => one.id === id)
  if (!turn || part !== 'readBack') return false
  const moving = turn.elements.flatMap(({ readBack }) => {
    const said = readBack ? Object.values(readBack) : []
    // Names of figures and of parts are no words of it.
    return said.some(({ text }) => MOVEMENT.test(text.replaceAll(/<[^>]*>|\{[^}]*\}/g, ' '))) ? said : []
  })
  if (moving.length === 0) return false
  const isWrong = ({ name, kind, state }: Part) =>
    state === 'wrong' &&
    (kind === 'figure'
      ? ownOf(pack.figures.declarations, name)?.spec.kind === 'runway'
      : moving.some(({ paths }) => paths.flat().some((slot) => slot.name === name)))
  return parts.some(isWrong)
}
