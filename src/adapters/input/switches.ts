/**
 * Keys and buttons of the pilot's own: those of the page's windows, and those of sticks, pedals and pads,
 * which browsers tell only when asked. Both are heard only while the page is visible.
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
const LOOK_EVERY_MS = 25
/** Some pads tell a button only by how far it is down. */
const DOWN = 0.5
/** With these a page is operated: they are nobody's own. */
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
    // A key let go counts wherever the focus has gone meanwhile.
    if (!name || (isDown && isForField(event))) return
    if (isDown || down.has(name)) event.preventDefault()
    set(name, isDown)
  }

  /** A key let go in another window is never told. */
  function left(): void {
    for (const name of [...down]) if (bindings()[name]?.type === 'key') set(name, false)
  }

  function look(): void {
    clock.after(LOOK_EVERY_MS, look)
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
    // Before anything on the page: a key of the pilot's own does nothing else.
    for (const type of ['keydown', 'keyup'] as const) other.addEventListener(type, keyed, { capture: true })
    other.addEventListener('blur', left)
    return () => {
      for (const type of ['keydown', 'keyup'] as const) other.removeEventListener(type, keyed, { capture: true })
      other.removeEventListener('blur', left)
    }
  }

  attach(page)
  look()
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

function buttonOf(told: string): Binding {
  const at = told.indexOf(' ')
  return { type: 'button', pad: told.slice(at + 1), button: Number(told.slice(0, at)) }
}

/** As it is printed on the key, where it prints anything. */
function labelOf({ key, code }: KeyboardEvent): string {
  if (key === ' ') return 'Space'
  if (key.length === 1 && !/^Numpad/.test(code)) return key.toUpperCase()
  return /^(Numpad|Shift|Control|Alt)/.test(code) ? code.replace(/([a-z])([A-Z0-9])/g, '$1 $2') : key
}

/** Letters go to the field they are typed in; space and enter to the button that has the focus. */
function isForField({ target, key, ctrlKey, altKey, metaKey }: KeyboardEvent): boolean {
  // Not by its class: elements of another window are of that window's classes.
  if (!target || !('matches' in target)) return false
  const on = target as Element
  const isTyped = key.length === 1 && !ctrlKey && !altKey && !metaKey
  if (on.matches('input:not([type="radio"], [type="range"]), textarea, select')) {
    return isTyped || /^(Enter|Backspace|Delete|Arrow|Home|End)/.test(key)
  }
  return on.matches('button, summary, a, input') && (key === ' ' || key === 'Enter')
}
