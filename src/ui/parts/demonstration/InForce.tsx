/** The values in force of what was said, each with its reasons and those of what it rests on. */

import type { ValueInForce } from '../../../app/view/valuesInForce.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { FigureWhy } from '../figures/FigureWhy.tsx'

export function InForce({ pack, values }: { readonly pack: Pack; readonly values: readonly ValueInForce[] }) {
  if (values.length === 0) return null
  return (
    <section class="stack in-force" aria-labelledby="in-force">
      <h2 id="in-force">In force</h2>
      {values.map(({ label, value, revision, chain }) => (
        <div key={label} class="stack">
          <p>
            <span class="cap soft">{label}</span> <strong class="value">{value}</strong>{' '}
            <small class="soft">{revision}</small>
          </p>
          <dl>
            {chain.map((link) => (
              <div key={link.label}>
                <dt class="cap soft">{link.label}</dt>
                <dd>
                  <FigureWhy pack={pack} why={link.why} />
                </dd>
              </div>
            ))}
          </dl>
        </div>
      ))}
    </section>
  )
}
