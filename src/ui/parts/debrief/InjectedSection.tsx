/** What an instructor had happen in the run: when, who, what, and where the run was. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { type Injected, injectedLine } from '../../../kernel/run/core/injections.ts'

export function InjectedSection({ injected }: { readonly injected: readonly Injected[] }) {
  return (
    <section aria-label="What the instructor had happen">
      <ol class="values">
        {injected.map((one) => (
          <li key={one.order}>
            {clockTime(one.t)} {injectedLine(one)}
          </li>
        ))}
      </ol>
    </section>
  )
}
