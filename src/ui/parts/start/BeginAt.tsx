/** Where the run is to begin: from its beginning, or in the middle, with everything before it counted as done. */

import { placesToBegin } from '../../../app/view/placesToBegin.ts'
import { useActions, useApp } from '../../useApp.ts'

export function BeginAt() {
  const pack = useApp((state) => state.pack)
  const draft = useApp((state) => state.draft)
  const beginAt = useApp((state) => state.beginAt)
  const hasStations = useApp((state) => state.settings.stations)
  const actions = useActions()
  if (!pack) return null
  const phases = placesToBegin(pack, draft, hasStations)
  const isThere = phases.some(({ activities }) => activities.some(({ id }) => id === beginAt))
  return (
    <div class="field begin-at">
      <label for="begin-at">Begin at</label>
      <select
        id="begin-at"
        value={isThere ? beginAt : ''}
        aria-describedby={isThere ? 'begin-at-done' : undefined}
        onChange={({ currentTarget: { value } }) => actions.beginAt(value === '' ? undefined : value)}
      >
        <option value="">the beginning</option>
        {phases.map(({ name, activities }) => (
          <optgroup key={name} label={name}>
            {activities.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
      {isThere && (
        <p id="begin-at-done" class="soft small">
          Everything before it counts as done.
        </p>
      )}
    </div>
  )
}
