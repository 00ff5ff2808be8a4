/** The packs at hand, and the way on to the figures. */

import { hasRunOn } from '../../../app/selectors.ts'
import { useActions, useApp } from '../../useApp.ts'
import { DrawDeparture } from './DrawDeparture.tsx'

export function PackChoice() {
  const packs = useApp((state) => state.packs)
  const pack = useApp((state) => state.pack)
  const isRunOn = useApp(hasRunOn)
  const actions = useActions()
  if (isRunOn) return null
  return (
    <section class="stack" aria-labelledby="packs">
      <h2 id="packs">Choose a pack</h2>
      {packs?.length === 0 && (
        <p>No pack came with this app. Reload the page; if none appears, it was built without one.</p>
      )}
      <ul class="stack">
        {packs?.map(({ id, name, aircraft }) => (
          <li key={id}>
            <button
              type="button"
              class="pack"
              aria-pressed={pack?.id === id}
              onClick={() => void actions.choosePack(id)}
            >
              <strong>{name}</strong> <small>{aircraft}</small>
              {pack?.id === id && <small>chosen: {pack.operator}</small>}
            </button>
          </li>
        ))}
      </ul>
      {pack && (
        <div>
          <button type="button" class="first" onClick={() => actions.show('figures')}>
            Enter the figures
          </button>
        </div>
      )}
      <DrawDeparture />
    </section>
  )
}
