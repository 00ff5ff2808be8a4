/** The whole page, after a reload: browsers play no sound before a key or a click. */

import { useLayoutEffect, useRef } from 'preact/hooks'
import { useActions } from '../../useApp.ts'

/** Keys that a browser does not take for a gesture, or that belong to it. */
const NO_GESTURE = new Set(['Escape', 'Tab', 'Shift', 'Control', 'Alt', 'Meta', 'CapsLock', 'NumLock', 'ScrollLock'])

export function Resume() {
  const actions = useActions()
  const button = useRef<HTMLButtonElement>(null)
  // Before the words can be seen: whoever presses a key at once is not to press it for nothing.
  useLayoutEffect(() => {
    button.current?.focus()
    const press = (event: KeyboardEvent) => {
      if (NO_GESTURE.has(event.key) || event.ctrlKey || event.metaKey || event.altKey) return
      event.preventDefault()
      actions.gesture()
    }
    const click = () => actions.gesture()
    document.addEventListener('keydown', press)
    document.addEventListener('click', click)
    return () => {
      document.removeEventListener('keydown', press)
      document.removeEventListener('click', click)
    }
  }, [actions])
  return (
    <main class="overlay">
      <h1>The run is where you left it</h1>
      <button ref={button} type="button" class="first">
        Press any key to resume
      </button>
      <p class="soft">The browser plays no sound until you press a key or click. The open item is asked again.</p>
    </main>
  )
}
