/** Deviations of a run by kind: how many, what is wrong with it, and where each stands. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { byKind, DEVIATION_WORDS, type Deviation } from '../../../kernel/run/debrief/deviations.ts'

export function DeviationsSection({ deviations }: { readonly deviations: readonly Deviation[] }) {
  return (
    <>
      {byKind(deviations).map(([kind, all]) => (
        <section key={kind} aria-label={DEVIATION_WORDS[kind].name}>
          <div class="head-line">
            <h3>{DEVIATION_WORDS[kind].name}</h3>
            <span class="shown">{all.length}</span>
          </div>
          <p class="soft">{DEVIATION_WORDS[kind].about}</p>
          <ol class="values">
            {all.map((one) => (
              <OneDeviation key={`${one.where} ${one.at} ${one.sentence}`} one={one} />
            ))}
          </ol>
        </section>
      ))}
    </>
  )
}

function OneDeviation({ one }: { readonly one: Deviation }) {
  const { where, at, said, sentence, why } = one
  return (
    <li>
      {at !== undefined && `${clockTime(at)} `}
      <strong class="cap">{where}</strong>
      {said !== undefined && ` “${said}”`}
      <div>
        {sentence} {why}
      </div>
    </li>
  )
}
