/** The instructor's page, or a guest's: the run of a trainee as it happens, and the desk beside it. */

import { useMemo } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import type { RoomState, Watched } from '../../../app/store.ts'
import { NOTICE } from '../../../kernel/run/core/events.ts'
import type { Ticket } from '../../../room/http.ts'
import { AppContext, useActions, useApp } from '../../useApp.ts'
import { ClassList } from './ClassList.tsx'
import { Desk } from './Desk.tsx'
import { Grades } from './Grades.tsx'
import { KeptNotes } from './KeptNotes.tsx'
import { LinkState } from './LinkState.tsx'
import { Marks } from './Marks.tsx'
import { ShowAndSave } from './ShowAndSave.tsx'
import { CloseRoom } from './TraineeRoom.tsx'
import { WatchedRun } from './WatchedRun.tsx'

interface InRoomProps {
  readonly room: RoomState
  readonly ticket: Ticket
}

export function InRoom({ room, ticket }: InRoomProps) {
  const actions = useActions()
  const notes = useApp((state) => state.notes)
  const watched = room.watched.find(({ seat }) => seat === room.chosen)
  const isInstructor = ticket.role === 'instructor'
  return (
    <main class="page room">
      <div class="room-head row">
        <h1 tabIndex={-1}>{isInstructor ? 'Instructor' : 'Guest'}</h1>
        <LinkState room={room} />
      </div>
      {room.watched.length > 1 && <ClassList room={room} />}
      {watched ? (
        <Seen watched={watched}>
          <WatchedRun name={watched.name} />
        </Seen>
      ) : (
        <p>Nobody trains in this room yet. A trainee joins by the code {ticket.code}.</p>
      )}
      <aside class="stack wide" aria-label="Desk">
        {watched && isInstructor && (
          <Seen watched={watched}>
            <Marks room={room} notes={notes} actions={actions} />
            <Grades room={room} actions={actions} />
            <ShowAndSave room={room} notes={notes} actions={actions} />
            <Desk room={room} actions={actions} />
          </Seen>
        )}
        {isInstructor && <KeptNotes />}
        {room.message && <p role="alert">{room.message}</p>}
        <div class="row">
          <button type="button" class="plain" onClick={() => void actions.leaveRoom()}>
            Leave the room
          </button>
          {isInstructor && <CloseRoom />}
        </div>
        <p class="soft small">{NOTICE}.</p>
      </aside>
    </main>
  )
}

/** What shows a run shows that of the trainee in here; whatever it would ask for goes nowhere. */
function Seen({
  watched: { store },
  children,
}: {
  readonly watched: Watched
  readonly children: preact.ComponentChildren
}) {
  const parts = useMemo(() => ({ store, actions: NOTHING }), [store])
  return <AppContext.Provider value={parts}>{children}</AppContext.Provider>
}

const NOTHING = new Proxy({}, { get: () => () => undefined }) as Actions
