/** The weight and CG envelopes as a picture, and the same as a table. */

import { useMemo } from 'preact/hooks'
import { type EnvelopePoint, envelopeView } from '../../../app/figures/envelopeView.ts'
import type { Hidden } from '../../../app/figures/hiddenFigures.ts'
import { formatNumber } from '../../../kernel/figures/format.ts'
import type { FigureSet } from '../../../kernel/figures/model.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { EnvelopePicture } from './EnvelopePicture.tsx'

interface EnvelopesProps {
  readonly pack: Pack
  readonly preview: FigureSet | undefined
  readonly inForce: FigureSet | undefined
  readonly hidden: ReadonlyMap<string, Hidden>
}

export function Envelopes({ pack, preview, inForce, hidden }: EnvelopesProps) {
  const view = useMemo(() => envelopeView(pack, preview, inForce, hidden), [pack, preview, inForce, hidden])
  if (!view) return null
  return (
    <section class="stack" aria-labelledby="envelope">
      <h2 id="envelope">Weight and centre of gravity</h2>
      {view.isHidden && <p class="soft">The points are hidden.</p>}
      <EnvelopePicture view={view} />
      {view.points.length > 0 && (
        <details>
          <summary>The same as a table</summary>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls sideways by keyboard too */}
          <section class="scroll" tabIndex={0} aria-label="Weight and centre of gravity as a table">
            <table>
              <thead>
                <tr>
                  <th scope="col">Point</th>
                  <th scope="col">Weight, {view.weightUnit}</th>
                  <th scope="col">CG, {view.cgUnit}</th>
                  <th scope="col">Forward limit</th>
                  <th scope="col">Aft limit</th>
                  <th scope="col">Place</th>
                </tr>
              </thead>
              <tbody>
                {view.points.map((point) => (
                  <PointRow key={`${point.label} ${point.revision}`} point={point} />
                ))}
              </tbody>
            </table>
          </section>
        </details>
      )}
    </section>
  )
}

const REVISION_WORDS = { draft: 'entered', inForce: 'in force' } as const

function PointRow({ point }: { readonly point: EnvelopePoint }) {
  const { label, revision, weight, cg, forward, aft } = point
  const isInside = forward !== undefined && aft !== undefined && cg >= forward && cg <= aft
  return (
    <tr>
      <th scope="row">
        {label}, {REVISION_WORDS[revision]}
      </th>
      <td>{formatNumber(weight, 0)}</td>
      <td>{formatNumber(cg, 1)}</td>
      <td>{forward === undefined ? 'none' : formatNumber(forward, 1)}</td>
      <td>{aft === undefined ? 'none' : formatNumber(aft, 1)}</td>
      <td>{isInside ? 'inside' : 'outside'}</td>
    </tr>
  )
}
