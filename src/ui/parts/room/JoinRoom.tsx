/** The way into a room: by its code, or by opening one. */

import { useState } from 'preact/hooks'
import type { RoomState } from '../../../app/store.ts'
import { codeIn } from '../../../room/code.ts'
import type { RoomRole } from '../../../room/documents.ts'
import { useActions } from '../../useApp.ts'

const ROLES: readonly { readonly role: RoomRole; readonly label: string; readonly about: string }[] = [
  { role: 'instructor', label: 'Instructor', about: 'sees the run, marks moments, and has things happen in it' },
  { role: 'trainee', label: 'Trainee', about: 'flies on this device; the run goes to the room as it happens' },
  { role: 'guest', label: 'Guest', about: 'sees the run, and nothing else' },
]

export function JoinRoom({ room }: { readonly room: RoomState }) {
  const actions = useActions()
  const [code, setCode] = useState(room.offered)
  const [name, setName] = useState('')
  const [role, setRole] = useState<RoomRole>('instructor')
  const [isAsked, setAsked] = useState(false)
  const known = codeIn(code)
  return (
    <>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault()
          setAsked(true)
          if (known) void actions.joinRoom({ code: known, role, name })
        }}
      >
        <h2>Join a room</h2>
        <label>
          Code
          <input
            class="room-code"
            value={code}
            autoComplete="off"
            autoCapitalize="characters"
            spellcheck={false}
            maxLength={9}
            aria-invalid={isAsked && !known}
            aria-describedby="code-help"
            onInput={({ currentTarget }) => setCode(currentTarget.value)}
          />
        </label>
        <p id="code-help" class={isAsked && !known ? '' : 'soft small'}>
          Six signs, as the trainee’s screen or the server shows them. There is no 0, 1, 2, 5, 8, B, I, L, O, S or Z
          among them.
        </p>
        <Name name={name} change={setName} />
        <fieldset class="stack">
          <legend>You are</legend>
          {ROLES.map((one) => (
            <label key={one.role} class="row">
              <input type="radio" name="role" checked={role === one.role} onChange={() => setRole(one.role)} />
              <span>
                {one.label}
                <small class="soft"> {one.about}</small>
              </span>
            </label>
          ))}
        </fieldset>
        {room.message && <p role="alert">{room.message}</p>}
        {role === 'trainee' && CANNOT_FLY && <NoFlying />}
        <div>
          <button type="submit" class="first" disabled={role === 'trainee' && CANNOT_FLY}>
            Join
          </button>
        </div>
      </form>
      <section class="stack" aria-labelledby="open-room">
        <h2 id="open-room">Open one for your run</h2>
        <p>You fly here as always. An instructor on another device joins by the code that you are shown.</p>
        {CANNOT_FLY && <NoFlying />}
        <div>
          <button type="button" disabled={CANNOT_FLY} onClick={() => void actions.openRoom(name)}>
            Open a room
          </button>
        </div>
      </section>
    </>
  )
}

/** Browsers keep the microphone, and what a pack's fingerprint is made with, from pages on plain http. */
const CANNOT_FLY = globalThis.isSecureContext === false

function NoFlying() {
  return (
    <p class="notice">
      <strong>Not flown here.</strong> This page came over plain http: a browser gives it no microphone, and no run can
      be begun on it. Open it by localhost on the server’s own machine, or over https. To look on it is enough.
    </p>
  )
}

function Name({ name, change }: { readonly name: string; readonly change: (name: string) => void }) {
  return (
    <label>
      Name, as the others see it
      <input value={name} maxLength={40} onInput={({ currentTarget }) => change(currentTarget.value)} />
    </label>
  )
}
