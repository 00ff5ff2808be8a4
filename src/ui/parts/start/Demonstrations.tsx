/** Departures made to be shown to a room, that came with the pack. */

import { useEffect } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'

export function Demonstrations() {
  const pack = useApp((state) => state.pack)
  const demonstrations = useApp((state) => state.demonstrations)
  const actions = useActions()
  useEffect(() => void actions.readDemonstrations(), [actions, pack])
  if (demonstrations.length === 0) return null
  return (
    <details>
      <summary>Demonstrations</summary>
      <p class="soft small">For a room: played by two voices, and stopped at what matters. Space goes on.</p>
      <ul class="stack">
        {demonstrations.map(({ name, title }) => (
          <li key={name}>
            <button type="button" onClick={() => void actions.showDemonstration(name)}>
              {title}
            </button>
          </li>
        ))}
      </ul>
    </details>
  )
}
