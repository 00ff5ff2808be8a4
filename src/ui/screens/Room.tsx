/** The room: how a trainee lets an instructor look on from another device, and what the instructor has there. */

import { useEffect } from 'preact/hooks'
import { NOTICE } from '../../kernel/run/core/events.ts'
import { InRoom } from '../parts/room/InRoom.tsx'
import { JoinRoom } from '../parts/room/JoinRoom.tsx'
import { KeptNotes } from '../parts/room/KeptNotes.tsx'
import { TraineeRoom } from '../parts/room/TraineeRoom.tsx'
import { useActions, useApp } from '../useApp.ts'
import '../look/room.css'

export function RoomScreen() {
  const room = useApp((state) => state.room)
  const actions = useActions()
  useEffect(() => {
    void actions.lookForRooms()
  }, [actions])
  if (room?.ticket && room.ticket.role !== 'trainee') return <InRoom room={room} ticket={room.ticket} />
  return (
    <main class="page narrow stack wide">
      <h1 tabIndex={-1}>Room</h1>
      {room?.ticket ? (
        <TraineeRoom room={room} ticket={room.ticket} />
      ) : room === undefined || room.server === 'looking' ? (
        <p class="soft">Asking this page’s server for rooms.</p>
      ) : room.server === 'none' ? (
        <p>
          This page came from a server without rooms. Start Otherseat with <code>npm run room</code>, and open the
          address that it prints.
        </p>
      ) : (
        <JoinRoom room={room} />
      )}
      <KeptNotes />
      <p class="soft small">{NOTICE}.</p>
    </main>
  )
}
