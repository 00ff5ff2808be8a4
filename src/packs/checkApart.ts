/** Whether the figures of a response can be told apart: of two that are spelled, with nothing between them, nobody hears where one ends. */

import type { Path } from '../kernel/response/path.ts'
import type { Response } from '../kernel/response/response.ts'
import type { FiguresText } from './figuresSchema.ts'

/** The first two of them; undefined where there are none. */
export function runTogether(
  response: Response,
  figures: FiguresText['figures'] | undefined,
): readonly [string, string] | undefined {
  const isSpelled = (name: string) => {
    const figure = figures && Object.hasOwn(figures, name) ? figures[name] : undefined
    return (
      figure?.kind === 'route' || (figure?.kind === 'identifier' && !('form' in figure && figure.form === 'letter'))
    )
  }
  return response.paths.map((path) => pairIn(path, isSpelled)).find((pair) => pair !== undefined)
}

function pairIn(path: Path, isSpelled: (name: string) => boolean): readonly [string, string] | undefined {
  for (const [index, slot] of path.entries()) {
    const next = path[index + 1]
    if (slot.type !== 'figure' || next?.type !== 'figure') continue
    const isBare = slot.units.length === 0 && next.labels.length === 0
    if (isBare && isSpelled(slot.figure) && isSpelled(next.figure)) return [slot.figure, next.figure]
  }
  return undefined
}
