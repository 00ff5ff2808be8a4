/** Answers that differ from this one in one place, and what each would have drawn. */

import type { NearShown } from '../../../app/view/demonstrated.ts'
import { Verdict } from '../run/Verdict.tsx'

export function NearAnswers({ near }: { readonly near: readonly NearShown[] }) {
  if (near.length === 0) return null
  return (
    <section class="stack near" aria-labelledby="near">
      <h2 id="near">And if it had been</h2>
      <ul class="stack">
        {near.map(({ how, words, changed, judgement, why }) => (
          <li key={words.join(' ')}>
            <p class="near-words">
              “
              {words.map((word, at) => (
                <span key={`${at} ${word}`}>
                  {at > 0 && ' '}
                  {changed.includes(at) ? <mark>{word}</mark> : word}
                </span>
              ))}
              ” <small class="soft">{how}</small>
            </p>
            {judgement && <Verdict judgement={judgement} />}
            <p class="soft">{why}</p>
          </li>
        ))}
      </ul>
    </section>
  )
}
