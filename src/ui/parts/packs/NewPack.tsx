/** A pack of one's own, begun with one that is small and sound. */

import { useActions } from '../../useApp.ts'

const STARTS = [
  { id: 'new-pack', name: 'Empty', about: 'one list of two items' },
  { id: 'piston-single', name: 'Single-engine piston', about: 'three lists, weight and balance, rotate speed' },
  { id: 'turboprop-single', name: 'Turboprop single', about: 'three lists, a timed start, torque by temperature' },
  { id: 'light-twin', name: 'Light twin', about: 'three lists, trim, red and blue line' },
  { id: 'two-crew-jet', name: 'Two-crew jet', about: 'three lists, both seats answer, V speeds and trim' },
] as const

export function NewPack() {
  const actions = useActions()
  return (
    <section class="stack" aria-labelledby="new-pack">
      <h2 id="new-pack">New</h2>
      <p>
        Begin with one of these: invented, small and sound, with a word at each line that is not plain by itself. Then
        change it into yours.
      </p>
      <div class="row">
        {STARTS.map(({ id, name, about }) => (
          <button key={id} type="button" onClick={() => void actions.newPack(id)}>
            {name}
            <small>{about}</small>
          </button>
        ))}
      </div>
    </section>
  )
}
