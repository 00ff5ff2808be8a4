/** What this simulator is known to show wrongly, by the names that a remark may give it. */

import type { Pack, Quirk } from './checklist.ts'

/** The quirk that a remark names; a name counts as whole words only. */
export function quirkIn(pack: Pack, remark: string): Quirk | undefined {
  const bare = (text: string) =>
    ` ${text
      .toLowerCase()
      .replace(/[^a-z0-9']+/g, ' ')
      .trim()} `
  const said = bare(remark)
  return pack.quirks?.find(({ named }) => named.some((name) => said.includes(bare(name))))
}
