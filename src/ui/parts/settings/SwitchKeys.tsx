/** Keys, pedals and buttons of the pilot's own: which there are, and learning them by pressing them. */

import { nameOfBinding } from '../../../app/settings.ts'
import type { SwitchName } from '../../../ports.ts'
import { useActions, useApp } from '../../useApp.ts'

const SWITCHES: readonly { readonly name: SwitchName; readonly label: string; readonly about: string }[] = [
  { name: 'talk', label: 'Talk', about: 'held while you speak; interrupts the voice, and ends a standby' },
  { name: 'radio', label: 'Radio', about: 'your key for the radio: while it is held, Otherseat does not listen' },
  { name: 'confirm', label: 'Confirm', about: 'an item without a value, a clearance, a flow; logged as not read back' },
  {
    name: 'freeze',
    label: 'Freeze',
    about: 'stops a demonstration to a room, and goes on; Space unless you choose another',
  },
]

export function SwitchKeys() {
  const switches = useApp((state) => state.settings.switches)
  const learning = useApp((state) => state.learning)
  const actions = useActions()
  return (
    <fieldset class="section stack">
      <legend>Keys, pedals and buttons</legend>
      <ul class="values">
        {SWITCHES.map(({ name, label, about }) => {
          const binding = switches[name]
          const isLearning = learning === name
          return (
            <li key={name} class="switch">
              <p>
                <strong>{label}</strong> <span class="soft">{about}</span>
              </p>
              <p role="status">{isLearning ? 'Press it now; Escape leaves it.' : nameOfBinding(binding)}</p>
              <div class="row">
                <button type="button" aria-pressed={isLearning} onClick={() => void actions.learn(name)}>
                  {binding ? `Another for ${label.toLowerCase()}` : `Choose one for ${label.toLowerCase()}`}
                </button>
                {binding && (
                  <button
                    type="button"
                    class="plain"
                    onClick={() => actions.settings({ switches: { ...switches, [name]: null } })}
                  >
                    None for {label.toLowerCase()}
                  </button>
                )}
              </div>
            </li>
          )
        })}
      </ul>
      <p class="soft">
        Keys and buttons work while this page is visible, also next to a simulator. Behind a full-screen window a
        browser passes neither on: use the open microphone there, or a headset's keys.
      </p>
    </fieldset>
  )
}
