/**
 * The pilot's own keys and buttons: keys of the page's windows, and buttons of sticks, pedals and pads, which have to
 * be polled. Both work only while the page is visible.
 */

import { createEmitter } from '../../emitter.ts'
import type { Binding, Clock, SwitchEvent, Switches, SwitchName } from '../../ports.ts'

export interface SwitchParts {
  readonly clock: Clock
  readonly bindings: () => Readonly<Record<SwitchName, Binding | null>>
  readonly window?: Window
  readonly pads?: () => readonly (Pick<Gamepad, 'id' | 'buttons'> | null)[]
}

/** A press of a quarter of a second is seen many times over. */
const POLL_MS = 25
/** Some pads report a button only by how far it is pressed. */
const DOWN = 0.5
/** A page is operated with these, so they cannot be assigned. */
const NOT_OURS = new Set(['Tab', 'Escape', 'MetaLeft', 'MetaRight'])

export function createSwitches({ clock, bindings, window: page = window, pads = allPads }: SwitchParts): Switches {
  const { emit, subscribe } = createEmitter<SwitchEvent>()
  const down = new Set<SwitchName>()
  let learned: ((binding: Binding | undefined) => void) | undefined
  /** Buttons that are down, as far as was seen. */
  let pressed = new Set<string>()

  const set = (name: SwitchName, isDown: boolean) => {
    if (down.has(name) === isDown) return
    if (isDown) down.add(name)
    else down.delete(name)
    emit({ name, isDown })
  }
  const nameOf = (fits: (binding: Binding) => boolean) =>
    (Object.entries(bindings()) as [SwitchName, Binding | null][]).find(([, binding]) => binding && fits(binding))?.[0]

  function learn(binding: Binding | undefined): void {
    learned?.(binding)
    learned = undefined
  }

  function keyed(event: KeyboardEvent): void {
    const isDown = event.type === 'keydown'
    if (learned) {
      if (!isDown || event.repeat) return
      event.preventDefault()
      event.stopPropagation()
      if (event.code === 'Escape') learn(undefined)
      else if (!NOT_OURS.has(event.code)) learn({ type: 'key', code: event.code, label: labelOf(event) })
      return
    }
    const name = nameOf((binding) => binding.type === 'key' && binding.code === event.code)
    // A release counts wherever the focus is by then.
    if (!name || (isDown && isForField(event))) return
    if (isDown || down.has(name)) event.preventDefault()
    set(name, isDown)
  }

  /** A key released in another window is never reported. */
  function left(): void {
    for (const name of [...down]) if (bindings()[name]?.type === 'key') set(name, false)
  }

  function poll(): void {
    clock.after(POLL_MS, poll)
    const wants = learned || Object.values(bindings()).some((binding) => binding?.type === 'button')
    if (!wants) return
    const now = new Set<string>()
    for (const pad of pads()) {
      pad?.buttons.forEach((button, index) => {
        if (button.pressed || button.value > DOWN) now.add(`${index} ${pad.id}`)
      })
    }
    const fresh = [...now].find((one) => !pressed.has(one))
    pressed = now
    if (learned) {
      if (fresh) learn(buttonOf(fresh))
      return
    }
    for (const [name, binding] of Object.entries(bindings()) as [SwitchName, Binding | null][]) {
      if (binding?.type === 'button') set(name, now.has(`${binding.button} ${binding.pad}`))
    }
  }

  function attach(other: Window): () => void {
    // Before anything on the page: an assigned key does nothing else.
    for (const type of ['keydown', 'keyup'] as const) other.addEventListener(type, keyed, { capture: true })
    other.addEventListener('blur', left)
    return () => {
      for (const type of ['keydown', 'keyup'] as const) other.removeEventListener(type, keyed, { capture: true })
      other.removeEventListener('blur', left)
    }
  }

  attach(page)
  poll()
  return {
    attach,
    learn() {
      learn(undefined)
      return new Promise((answer) => {
        learned = answer
      })
    },
    subscribe,
  }
}

function allPads(): readonly (Gamepad | null)[] {
  // Refused in frames without the permission; there are no buttons then.
  try {
    return navigator.getGamepads?.() ?? []
  } catch {
    return []
  }
}

function buttonOf(seen: string): Binding {
  const at = seen.indexOf(' ')
  return { type: 'button', pad: seen.slice(at + 1), button: Number(seen.slice(0, at)) }
}

/** As it is printed on the key, where it prints anything. */
function labelOf({ key, code }: KeyboardEvent): string {
  if (key === ' ') return 'Space'
  if (key.length === 1 && !/^Numpad/.test(code)) return key.toUpperCase()
  return /^(Numpad|Shift|Control|Alt)/.test(code) ? code.replace(/([a-z])([A-Z0-9])/g, '$1 $2') : key
}

/** Letters go to the field they are typed in; space and enter to the button that has the focus. */
function isForField(event: KeyboardEvent): boolean {
  const { key, ctrlKey, altKey, metaKey } = event
  // Of a field in a shadow root `target` is the root's host.
  const [target] = event.composedPath()
  // Not by `instanceof`: elements of another window have that window's classes.
  if (!target || !('matches' in target)) return false
  const on = target as Element
  const isTyped = key.length === 1 && !ctrlKey && !altKey && !metaKey
  if (on.matches('input:not([type="radio"], [type="range"]), textarea, select, [contenteditable="true"]')) {
    return isTyped || /^(Enter|Backspace|Delete|Arrow|Home|End)/.test(key)
  }
  return on.matches('button, summary, a, input') && (key === ' ' || key === 'Enter')
}
