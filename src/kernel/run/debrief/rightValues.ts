/** What would have been right, as people read it: one value, or all that are accepted. */

import type { Accept, KindSpec, Value } from '../../kinds/kind.ts'
import { showValue } from '../../kinds/table.ts'

export function rightValues(spec: KindSpec, value: Value, accept: Accept | undefined): string {
  const show = (one: Value) => showValue({ ...spec, value: one })
  const { min, max } = accept ?? {}
  if (min !== undefined && max !== undefined) return `${show(min)} to ${show(max)}`
  if (min !== undefined) return `${show(min)} or more`
  return max === undefined ? show(value) : `${show(max)} or less`
}
