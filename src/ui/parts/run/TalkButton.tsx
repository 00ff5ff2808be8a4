/** The talk key's likeness on the screen, for touch and pointer; by keyboard it is held as any other key. */

import { nameOfBinding } from '../../../app/settings.ts'
import { useActions, useApp } from '../../useApp.ts'

export function TalkButton() {
  const isPush = useApp((state) => state.settings.listening === 'push')
  const key = useApp((state) => state.settings.switches.talk)
  const isOpen = useApp((state) => state.ear.gate === 'open')
  const actions = useActions()
  if (!isPush) return null
  const set = (isDown: boolean) => actions.switched({ name: 'talk', isDown })
  const held = (event: KeyboardEvent, isDown: boolean) => {
    if (event.key !== ' ' && event.key !== 'Enter') return
    event.preventDefault()
    if (!event.repeat) set(isDown)
  }
  return (
    <button
      type="button"
      class="talk first"
      aria-pressed={isOpen}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture?.(event.pointerId)
        set(true)
      }}
      onPointerUp={() => set(false)}
      onPointerCancel={() => set(false)}
      onKeyDown={(event) => held(event, true)}
      onKeyUp={(event) => held(event, false)}
      onBlur={() => set(false)}
      onContextMenu={(event) => event.preventDefault()}
    >
      Hold to talk {key && <small>or hold {nameOfBinding(key)}</small>}
    </button>
  )
}
