/** What a trainee has of the room: its code, how others get in, how the link is, and the way out. */

import { useState } from 'preact/hooks'
import { encode } from 'uqr'
import { hasRunOn } from '../../../app/selectors.ts'
import type { RoomState } from '../../../app/store.ts'
import { shownCode } from '../../../room/code.ts'
import type { Ticket } from '../../../room/http.ts'
import { useActions, useApp } from '../../useApp.ts'
import { LinkState } from './LinkState.tsx'

export function TraineeRoom({ room, ticket }: { readonly room: RoomState; readonly ticket: Ticket }) {
  const actions = useActions()
  const isOn = useApp(hasRunOn)
  const { code, codeUntil, until } = ticket
  const addresses = typeof room.server === 'string' ? [] : room.server.addresses
  const link = `${addresses[0] ?? location.origin + location.pathname}#room/${code}`
  return (
    <>
      <LinkState room={room} />
      <section class="stack" aria-labelledby="room-code">
        <h2 id="room-code">Code</h2>
        <p class="code-large">{shownCode(code)}</p>
        <p>
          On the other device open <a href={link}>{link}</a>, or scan it, and join as instructor. The code admits others
          until {timeOf(codeUntil)}.
        </p>
        <QrCode text={link} />
      </section>
      <section class="stack" aria-labelledby="room-about">
        <h2 id="room-about">What goes to the room</h2>
        <p>
          The log of your run as it happens: what was asked, what was heard as words, verdicts, values and papers; and
          whether the ear listens. No sound leaves this device. Your run never waits for the link.
        </p>
        <p>The server keeps it until {timeOf(until)}, then deletes it.</p>
      </section>
      {room.message && <p role="alert">{room.message}</p>}
      <div class="row">
        <button type="button" class="first" onClick={() => actions.show(isOn ? 'run' : 'start')}>
          {isOn ? 'Back to the run' : 'Choose a departure'}
        </button>
        <button type="button" onClick={() => void actions.leaveRoom()}>
          Leave the room
        </button>
        <CloseRoom />
      </div>
    </>
  )
}

export function CloseRoom() {
  const actions = useActions()
  const [isAsked, setAsked] = useState(false)
  if (!isAsked)
    return (
      <button type="button" class="plain" onClick={() => setAsked(true)}>
        Close the room
      </button>
    )
  return (
    <button type="button" onClick={() => void actions.closeRoom()}>
      Close it, and delete all that the server has of it
    </button>
  )
}

const timeOf = (at: number) =>
  new Date(at).toLocaleString('en-GB', { weekday: 'long', timeStyle: undefined, hour: '2-digit', minute: '2-digit' })

/** Dark on light in either theme, as scanners want it. */
function QrCode({ text }: { readonly text: string }) {
  const { data, size } = encode(text, { border: 3 })
  const path = data.flatMap((row, y) => row.flatMap((isDark, x) => (isDark ? `M${x} ${y}h1v1h-1z` : []))).join('')
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label="The link as a QR code">
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  )
}
