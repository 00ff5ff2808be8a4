/** "Did you look?": the pilot's own times and what they can tell, then each answer with its likelihood. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { type DebriefLooks, type LookAnswer, looksWords, ratioWords } from '../../../kernel/run/debrief/look/looks.ts'
import { useActions } from '../../useApp.ts'

export function LooksSection({ looks }: { readonly looks: DebriefLooks }) {
  const actions = useActions()
  return (
    <div class="stack">
      {looksWords(looks).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {looks.isCalibrated ? (
        <>
          <p class="soft">
            The time from the end of a challenge to your first sound. It is a likelihood and no verdict: who looks ahead
            of the challenge answers as soon as who does not look.
          </p>
          <Answers answers={looks.answers} />
        </>
      ) : (
        <div>
          <button type="button" onClick={() => actions.show('sound')}>
            Sound check
          </button>
        </div>
      )}
    </div>
  )
}

/** In short, beside the heading. */
export function looksHead(looks: DebriefLooks): string {
  if (!looks.isCalibrated) return 'not known yet'
  if (looks.answers.length === 0) return 'no spoken answers'
  const quick = looks.answers.filter(({ isQuick }) => isQuick).length
  return `${quick} of ${looks.answers.length} answers quicker than a look usually takes you`
}

function Answers({ answers }: { readonly answers: readonly LookAnswer[] }) {
  return (
    <ol class="values" aria-label="Answers and their times">
      {answers.map((answer) => (
        <li key={answer.t}>
          {clockTime(answer.t)} <strong class="cap">{answer.challenge}</strong>
          <div class={answer.isQuick ? undefined : 'soft'}>{ratioWords(answer)}</div>
        </li>
      ))}
    </ol>
  )
}
