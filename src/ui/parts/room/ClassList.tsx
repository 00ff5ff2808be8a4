/** All trainees of the room: where each is, and who needs help first. */

import { useSyncExternalStore } from 'preact/compat'
import { useMemo } from 'preact/hooks'
import { traineeView } from '../../../app/room/traineeView.ts'
import type { RoomState, Watched } from '../../../app/store.ts'
import { useActions } from '../../useApp.ts'

export function ClassList({ room }: { readonly room: RoomState }) {
  const actions = useActions()
  const { watched, chosen } = room
  const subscribe = useMemo(
    () => (changed: () => void) => {
      const leaving = watched.map(({ store }) => store.subscribe(changed))
      return () => {
        for (const leave of leaving) leave()
      }
    },
    [watched],
  )
  // In one text: what is selected must not be a new thing each time.
  const told = useSyncExternalStore(subscribe, () =>
    JSON.stringify(watched.map(({ store }) => traineeView(store.getState()))),
  )
  const views = useMemo(
    () =>
      (JSON.parse(told) as ReturnType<typeof traineeView>[])
        .flatMap((view, index) => (watched[index] ? [{ ...view, ...(watched[index] as Watched) }] : []))
        .sort((a, b) => b.need - a.need),
    [told, watched],
  )
  return (
    <section class="class-list" aria-label="Trainees">
      {views.map(({ seat, name, place, state, misses, why }) => (
        <button
          key={seat}
          type="button"
          aria-pressed={seat === chosen}
          class={seat === chosen ? 'first' : ''}
          onClick={() => actions.watchSeat(seat)}
        >
          {name}
          <small>
            {[place, state, misses === 0 ? '' : `${misses} missed`, why].filter((part) => part !== '').join(', ')}
          </small>
        </button>
      ))}
    </section>
  )
}
