/** The voices outside the crew: whether there are any, whose words they use, whether they err, how they sound. */

import { useActions, useApp } from '../../useApp.ts'
import { Choices } from './Choices.tsx'

const STATIONS = [
  { value: 'on', label: 'On', about: 'clearance, ground crew and taxi are spoken, and you read back' },
  { value: 'off', label: 'Off', about: 'checklists only; you say when a clearance is in' },
] as const
const RADIO = [
  { value: 'icao', label: 'ICAO', about: '"QNH", "holding point"' },
  { value: 'faa', label: 'FAA', about: '"altimeter", "hold short"' },
] as const
const HEAR_BACKS = [
  { value: 'off', label: 'No' },
  { value: 'on', label: 'Once in a run', about: 'a wrong value, or your first wrong read-back called correct' },
] as const
const RADIO_SOUND = [
  { value: 'on', label: 'As on a radio', about: 'only with the voice that comes with Otherseat' },
  { value: 'off', label: 'Clear' },
] as const

export function StationSettings() {
  const { stations, radio, wrongHearBacks, radioSound } = useApp((state) => state.settings)
  const { settings: set } = useActions()
  const onOff = (isOn: boolean) => (isOn ? 'on' : 'off')
  return (
    <>
      <Choices
        legend="Voices outside the crew"
        options={STATIONS}
        value={onOff(stations)}
        choose={(value) => set({ stations: value === 'on' })}
      />
      {stations && (
        <>
          <Choices
            legend="Words on the radio"
            options={RADIO}
            value={radio}
            choose={(words) => set({ radio: words })}
          />
          <Choices
            legend="The controller makes a mistake"
            options={HEAR_BACKS}
            value={onOff(wrongHearBacks)}
            choose={(value) => set({ wrongHearBacks: value === 'on' })}
          />
          <p class="soft">These three take effect from the next run.</p>
          <Choices
            legend="Sound of the radio"
            options={RADIO_SOUND}
            value={onOff(radioSound)}
            choose={(value) => set({ radioSound: value === 'on' })}
          />
        </>
      )}
    </>
  )
}
