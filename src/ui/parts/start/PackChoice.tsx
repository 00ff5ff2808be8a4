/** The packs at hand, and the way on to the figures. */

import { hasRunOn } from '../../../app/selectors.ts'
import type { PackSummary } from '../../../app/store.ts'
import { useActions, useApp } from '../../useApp.ts'
import { BeginAt } from './BeginAt.tsx'
import { Demonstrations } from './Demonstrations.tsx'
import { DrawDeparture } from './DrawDeparture.tsx'

export function PackChoice() {
  const packs = useApp((state) => state.packs)
  const pack = useApp((state) => state.pack)
  const chosen = useApp((state) => state.chosen)
  const isRunOn = useApp(hasRunOn)
  const actions = useActions()
  if (isRunOn) return null
  // A pack that came with a run is known by its id alone.
  const isChosen = ({ id, sha256 }: PackSummary) =>
    chosen === undefined ? sha256 === undefined && pack?.id === id : pack !== undefined && chosen === id
  const isOwn = chosen !== undefined && packs !== undefined && pack?.id !== chosen
  const isAsChosen = !isOwn || packs.some((one) => isChosen(one) && one.sha256 === pack?.sha256)
  return (
    <section class="stack" aria-labelledby="packs">
      <h2 id="packs">Choose a pack</h2>
      {packs?.length === 0 && (
        <p>No pack came with this app. Reload the page; if none appears, it was built without one.</p>
      )}
      <ul class="stack">
        {packs?.map((one) => (
          <li key={one.id}>
            <button
              type="button"
              class="pack"
              aria-pressed={isChosen(one)}
              onClick={() => void actions.choosePack(one.id)}
            >
              <strong>{one.name}</strong> <small>{one.aircraft}</small>
              {one.sha256 !== undefined && <small>your own</small>}
              {pack && isChosen(one) && <small>chosen: {pack.operator}</small>}
            </button>
          </li>
        ))}
      </ul>
      {pack && !isAsChosen && (
        <p>
          {pack.name} was changed or deleted since you chose it. Your figures are for it as it was; to fly it as it is
          now, choose it again.
        </p>
      )}
      {pack && (
        <>
          <BeginAt />
          <div>
            <button type="button" class="first" onClick={() => actions.show('figures')}>
              Enter the figures
            </button>
          </div>
        </>
      )}
      <DrawDeparture />
      {pack && <Demonstrations />}
    </section>
  )
}
