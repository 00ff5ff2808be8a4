/** What is left to each limit; what is beyond one stands first. */

import type { DraftView } from '../../../app/figures/draftView.ts'
import { Mark } from '../shell/Mark.tsx'

export function Limits({ view }: { readonly view: DraftView }) {
  const broken = view.limits.filter(({ isBroken }) => isBroken)
  if (view.limits.length === 0) return null
  const { untold } = view
  const whole = untold.length === 0 ? 'All kept' : `${untold.length} cannot be told yet, the others kept`
  const kept = view.limits.filter(({ isBroken }) => !isBroken)
  return (
    <section class="stack" aria-labelledby="limits">
      <h2 id="limits">Limits</h2>
      <details open={broken.length > 0}>
        <summary>{broken.length > 0 ? `${broken.length} broken` : whole}, with what is left</summary>
        <ul class="values">
          {[...broken, ...kept].map(({ label, shown, limit, margin, isBroken }) => (
            <li key={`${label} ${limit}`}>
              {isBroken && <Mark name="unequal" />} <span class="cap">{label}</span> {shown}, {limit}:{' '}
              <strong>{margin}</strong>
            </li>
          ))}
        </ul>
        {untold.length > 0 && <p class="soft">Without a value yet: {untold.join(', ')}.</p>}
      </details>
    </section>
  )
}
