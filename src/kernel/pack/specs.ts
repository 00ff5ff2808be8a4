/** Kinds of a pack's figures by name: shapes without values. */

import type { KindSpec } from '../kinds/kind.ts'
import { ownOf } from '../own.ts'
import type { Pack } from './checklist.ts'

export function specsOf(pack: Pack, names: readonly string[]): Record<string, KindSpec> {
  return Object.fromEntries(
    names.flatMap((name) => {
      const declared = ownOf(pack.figures.declarations, name)
      return declared ? [[name, declared.spec]] : []
    }),
  )
}
