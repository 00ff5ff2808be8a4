/** The answer, large: each group of words with what it was taken for beneath it, the verdict, and why in one sentence. */

import type { DemonstrationView } from '../../../app/view/demonstrated.ts'
import type { ReadWords } from '../../../app/view/readWords.ts'
import { Verdict } from '../run/Verdict.tsx'

const STATES: Readonly<Record<ReadWords['state'], string>> = {
  ok: 'right',
  wrong: 'wrong',
  missing: 'not all of it',
  doubt: 'in doubt',
  beside: '',
}

/** Words of a longer answer are smaller, so that its verdict is in sight with them. */
const MANY = 7

/** `isTold`: the reasons may name what would have been right. */
export function Answer({ shown, isTold }: { readonly shown: DemonstrationView; readonly isTold: boolean }) {
  const { challenge, by, read, missing, judgement, verdict, why } = shown
  return (
    <section class="heard-large" aria-label="What was heard">
      <p class="soft cap">
        {challenge}: {by}
      </p>
      <ol class={`read ${read.flatMap(({ words }) => words).length > MANY ? 'many' : ''}`}>
        {read.map((one, at) => (
          <Read key={`${at} ${one.words.join(' ')}`} one={one} />
        ))}
        {missing.map((label) => (
          <li key={label} class="is-missing">
            <span class="read-words">…</span>
            <span class="caption">
              {label} <strong>missing</strong>
            </span>
          </li>
        ))}
      </ol>
      <div role="status" class="stack">
        <Verdict judgement={judgement} words={verdict} />
        {isTold && why !== '' && <p>{why}</p>}
      </div>
    </section>
  )
}

function Read({ one: { words, state, label, read } }: { readonly one: ReadWords }) {
  return (
    <li class={`is-${state}`}>
      <span class="read-words">{words.join(' ')}</span>
      <span class="caption">
        {label}
        {read !== undefined && `, read as ${read}`} <strong>{STATES[state]}</strong>
      </span>
    </li>
  )
}
