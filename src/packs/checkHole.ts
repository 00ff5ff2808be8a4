/** Whether a station could have to say a figure that has no value, since somebody may leave it out. */

import type { Checking } from './checking.ts'
import type { Path } from './source.ts'

export function checkHole(checking: Checking, names: readonly string[], path: Path): void {
  for (const name of names) {
    const left = checking.grounds.leftOut.get(name)
    if (left === undefined) continue
    const may = left === name ? 'may be left out' : `rests on ${left}, which may be left out`
    checking.report(
      'wording.hole',
      path,
      `${name} ${may}: nothing would be said for it; make ${left} required or given`,
    )
  }
}
