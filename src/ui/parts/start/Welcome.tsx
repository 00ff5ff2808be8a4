/** The first visit: three sentences and one button. */

import { useActions } from '../../useApp.ts'

export function Welcome() {
  const actions = useActions()
  return (
    <section class="stack wide welcome" aria-labelledby="welcome">
      <h1 id="welcome" tabIndex={-1}>
        Otherseat
      </h1>
      <p>
        Otherseat is the second crew member for a pilot who trains alone: it speaks each challenge and listens to your
        answer.
      </p>
      <p>
        It checks every value you say against the figures of this departure and goes on only when the answer is right.
      </p>
      <p>What you say stays in this browser, and everything works by voice, by keyboard and by touch.</p>
      <div>
        <button type="button" class="first" onClick={() => actions.settings({ welcomed: true })}>
          Take your seat
        </button>
      </div>
    </section>
  )
}
