/** A departure drawn by number, so that a pilot alone can be surprised; the same number gives others the same one. */

import { useState } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'

/** Enough for every departure that anybody will fly. */
const MOST = 9999

export function DrawDeparture() {
  const isPossible = useApp((state) => state.pack?.figures.basis?.deal !== undefined)
  const actions = useActions()
  const [text, setText] = useState('')
  if (!isPossible) return null
  const seed = text === '' ? undefined : Number(text)
  const isNumber = seed === undefined || (Number.isInteger(seed) && seed >= 0 && seed <= MOST)
  const draw = (event: Event) => {
    event.preventDefault()
    if (isNumber) actions.deal(seed ?? Math.floor(Math.random() * (MOST + 1)))
  }
  return (
    <form class="stack" onSubmit={draw} aria-label="Draw a departure">
      <h3>Or draw one</h3>
      <p>
        Load, weather and runway are drawn by number; final figures come in later on their own, and there is a trap that
        only the debrief reveals. The same number draws the same departure.
      </p>
      <div class="row">
        <div class="field">
          <label for="seed">
            Number <span class="soft">(optional)</span>
          </label>
          <input
            id="seed"
            inputMode="numeric"
            value={text}
            aria-invalid={!isNumber}
            aria-describedby={isNumber ? undefined : 'seed-wrong'}
            onInput={(event) => setText(event.currentTarget.value.trim())}
          />
        </div>
        <button type="submit">Draw a departure</button>
      </div>
      {!isNumber && <p id="seed-wrong">A whole number from 0 to {MOST} would be right.</p>}
    </form>
  )
}
