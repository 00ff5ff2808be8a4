/** The way to the sound check, while no run is under way. It may be left out. */

import { useActions, useApp } from '../../useApp.ts'

export function SoundInvitation() {
  const run = useApp((state) => state.run)
  const actions = useActions()
  if (run?.status === 'running') return null
  return (
    <section class="stack" aria-labelledby="sound">
      <h2 id="sound">Sound check</h2>
      <p>
        One minute, once for each microphone and room: you hear the voice, read eight lines, and see what was heard.
      </p>
      <div>
        <button type="button" onClick={() => actions.show('sound')}>
          Check the sound
        </button>
      </div>
    </section>
  )
}
