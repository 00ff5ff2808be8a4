/** A figure with its value and its working on the figures of an example sheet. */

import { type Example, figureBeside } from '../../../../app/view/packBeside.ts'
import type { Pack } from '../../../../kernel/pack/checklist.ts'
import { FigureWhy } from '../../figures/FigureWhy.tsx'

interface FigureBesideProps {
  readonly pack: Pack
  readonly example: Example
  readonly name: string
}

export function FigureBeside({ pack, example, name }: FigureBesideProps) {
  const figure = figureBeside(pack, example, name)
  if (!figure) return null
  const { label, shown, said, why, items } = figure
  return (
    <section class="stack" aria-labelledby="beside-figure">
      <h2 id="beside-figure" class="cap">
        {label}
      </h2>
      {shown === undefined ? (
        <p>
          No value: {example.sheet === '' ? 'the pack has no example sheet in inputs/' : `${example.sheet} gives none`}.
        </p>
      ) : (
        <p>
          <strong>{shown}</strong> by {example.sheet || 'the pack itself'}; said “{said}”
        </p>
      )}
      <FigureWhy pack={pack} why={why} />
      <p class="small soft">{items.length === 0 ? 'No item says it.' : `Said at: ${items.join(', ')}.`}</p>
    </section>
  )
}
