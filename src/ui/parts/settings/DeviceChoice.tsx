/** Which microphone and which output, where the browser names them to the page. */

import type { Settings } from '../../../app/settings.ts'
import { useActions, useApp } from '../../useApp.ts'

export function DeviceChoice() {
  const { microphones, outputs } = useApp((state) => state.devices)
  const settings = useApp((state) => state.settings)
  if (microphones.length + outputs.length === 0) {
    return <p class="soft">Allow the microphone once, then choose microphone and output here.</p>
  }
  return (
    <div class="fields">
      <Device label="Microphone" name="microphone" devices={microphones} value={settings.microphone} />
      {outputs.length > 0 && (
        <div class="stack">
          <Device label="Output" name="output" devices={outputs} value={settings.output} />
          {settings.voice !== 'embedded' && (
            <p class="soft small">
              The browser's voices use the system output; tones and Otherseat's own voice use this one.
            </p>
          )}
        </div>
      )}
    </div>
  )
}

interface DeviceProps {
  readonly label: string
  readonly name: keyof Settings & ('microphone' | 'output')
  readonly devices: readonly { readonly id: string; readonly name: string }[]
  readonly value: string
}

function Device({ label, name, devices, value }: DeviceProps) {
  const actions = useActions()
  const isMissing = value !== '' && !devices.some(({ id }) => id === value)
  return (
    <div class="field">
      <label for={name}>{label}</label>
      <select id={name} value={value} onChange={(event) => actions.settings({ [name]: event.currentTarget.value })}>
        <option value="">System default</option>
        {isMissing && <option value={value}>not plugged in</option>}
        {devices.map(({ id, name: shown }) => (
          <option key={id} value={id}>
            {shown}
          </option>
        ))}
      </select>
    </div>
  )
}
