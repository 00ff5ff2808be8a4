/** What of a pack the cursor of the editor stands at. */

import type { Path } from '../source.ts'
import { readYaml } from '../yamlText.ts'
import { pathAt } from './spot.ts'

/** Ids as they are written; what the cursor is not in is left out. */
export interface AtCursor {
  readonly list?: string
  /** In that list. */
  readonly item?: string
  readonly figure?: string
}

export function atCursor(file: string, text: string, offset: number): AtCursor {
  const path = pathAt(text, offset)
  if (file === 'figures.yaml') {
    return path[0] === 'figures' && typeof path[1] === 'string' ? { figure: path[1] } : {}
  }
  if (file !== 'procedures.yaml' || path[0] !== 'phases' || path[2] !== 'activities') return {}
  const read = readYaml(text)
  const idAt = (way: Path): string | undefined => {
    const found = 'document' in read ? read.document.getIn(way) : undefined
    return typeof found === 'string' ? found : undefined
  }
  const list = idAt([...path.slice(0, 4), 'list'])
  const item = path[4] === 'entries' ? idAt([...path.slice(0, 6), 'item']) : undefined
  return { ...(list !== undefined && { list }), ...(list !== undefined && item !== undefined && { item }) }
}
