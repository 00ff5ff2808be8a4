/** Tables as screens and papers show them: entries and titles of their axes, cells with the decimals of the table. */

import { showUnit } from '../units.ts'
import { type Axis, NOT_GIVEN, type Table } from './pack.ts'

/** "takeoff trim, units". */
export function captionOf({ label, unit }: Table): string {
  const shown = showUnit(unit)
  return shown ? `${label}, ${shown}` : label
}

/** Entries of an axis as text; one that is empty where there is no axis. */
export function entriesOf(axis: Axis | undefined): readonly string[] {
  if (!axis) return ['']
  return 'choices' in axis ? axis.choices : axis.at.map(String)
}

/** "takeoff CG, % MAC". */
export function titleOf(axis: Axis): string {
  return 'choices' in axis ? axis.label : `${axis.label}, ${showUnit(axis.unit)}`
}

/** Writes every cell with as many decimals as the finest of the table has. */
export function cellWriter({ cells }: Table): (value: number) => string {
  const decimals = Math.max(...cells.map((value) => String(value).split('.')[1]?.length ?? 0))
  return (value) => (Number.isNaN(value) ? NOT_GIVEN : value.toFixed(decimals))
}
