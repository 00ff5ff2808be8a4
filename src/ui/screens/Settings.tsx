/** Settings of the person at this browser. Each holds at once; those of judging hold from the next run. */

import { useEffect } from 'preact/hooks'
import type { Settings as SettingsShape } from '../../app/settings.ts'
import { Choices } from '../parts/settings/Choices.tsx'
import { DeviceChoice } from '../parts/settings/DeviceChoice.tsx'
import { FigureSettings } from '../parts/settings/FigureSettings.tsx'
import { FlowSettings } from '../parts/settings/FlowSettings.tsx'
import { KeptSound } from '../parts/settings/KeptSound.tsx'
import { PartnerSettings } from '../parts/settings/PartnerSettings.tsx'
import { SoundInvitation } from '../parts/settings/SoundInvitation.tsx'
import { SpeakerSettings } from '../parts/settings/SpeakerSettings.tsx'
import { StationSettings } from '../parts/settings/StationSettings.tsx'
import { SwitchKeys } from '../parts/settings/SwitchKeys.tsx'
import { useActions, useApp } from '../useApp.ts'

const PHRASEOLOGY = [
  { value: 'plain', label: 'Plain', about: 'any clear form' },
  { value: 'standard', label: 'Standard', about: 'digits as ICAO or FAA say them, and your call sign' },
  { value: 'verbatim', label: 'Verbatim', about: "the list's own words" },
] as const
const COACHING = [
  { value: '0', label: 'Never' },
  { value: '2', label: 'After two misses' },
  { value: '3', label: 'After three misses' },
  { value: '5', label: 'After five misses' },
] as const
const THEMES = [
  { value: 'system', label: 'Follow the system' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
] as const
const TYPING = { value: 'typing', label: 'Typing and buttons only' } as const
const MODELS = [
  {
    value: 'on',
    label: 'Two models',
    about: '45 MB more, fetched once; much better in noise',
  },
  { value: 'off', label: 'One model', about: 'small and quick' },
] as const
const LISTENING = [
  { value: 'open', label: 'Open microphone', about: 'answer whenever it listens' },
  { value: 'push', label: 'Push to talk', about: 'only while the talk key is held' },
] as const
const SPEAKERS = [
  { value: 'room', label: 'Loudspeaker', about: 'it listens when it has spoken' },
  { value: 'headset', label: 'Headset', about: 'you may answer early; logged as such' },
] as const
const MEDIA_KEYS = [
  { value: 'off', label: 'Not used' },
  { value: 'on', label: 'Play to talk, next to confirm' },
] as const

export function Settings() {
  const settings = useApp((state) => state.settings)
  const voices = useApp((state) => state.voices)
  const isKept = useApp((state) => state.edition.isKept)
  const actions = useActions()
  useEffect(() => void actions.lookUpDevices(), [actions])
  const set = (change: Partial<SettingsShape>) => actions.settings(change)
  const voiceNames =
    settings.voice && !['embedded', ...voices].includes(settings.voice) ? [settings.voice, ...voices] : voices
  return (
    <main class="page narrow stack wide">
      <h1 tabIndex={-1}>Settings</h1>
      <Choices
        legend="Phraseology"
        options={PHRASEOLOGY}
        value={settings.phraseology}
        choose={(phraseology) => set({ phraseology })}
      />
      <p class="soft">Phraseology, coaching and flow settings take effect from the next run.</p>
      <Choices
        legend="Give the value"
        options={COACHING}
        value={String(settings.coachAfter)}
        choose={(count) => set({ coachAfter: Number(count) })}
      />
      <p class="soft">The debrief marks an item whose value was given.</p>
      <FlowSettings />
      <FigureSettings />
      <PartnerSettings />
      <EarChoice />
      <Choices
        legend="Microphone"
        options={LISTENING}
        value={settings.listening}
        choose={(listening) => set({ listening })}
      />
      <Choices
        legend="You listen through"
        options={SPEAKERS}
        value={settings.isHeadset ? 'headset' : 'room'}
        choose={(by) => set({ isHeadset: by === 'headset' })}
      />
      <KeptSound />
      <SoundInvitation />
      <details class="stack">
        <summary>Devices, and what suits your way of speaking</summary>
        <div class="stack">
          <DeviceChoice />
          <SpeakerSettings />
        </div>
      </details>
      <SwitchKeys />
      <Choices
        legend="Media keys of a headset"
        options={MEDIA_KEYS}
        value={settings.mediaKeys ? 'on' : 'off'}
        choose={(use) => set({ mediaKeys: use === 'on' })}
      />
      <div class="field">
        <label for="voice">Voice</label>
        <select id="voice" value={settings.voice} onChange={(event) => set({ voice: event.currentTarget.value })}>
          <option value="">Best available</option>
          <option value="embedded">The voice that comes with Otherseat</option>
          {voiceNames.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="rate">Voice speed: {settings.rate.toFixed(1)} times</label>
        <input
          id="rate"
          type="range"
          min="0.7"
          max="1.6"
          step="0.1"
          value={settings.rate}
          onInput={(event) => set({ rate: Number(event.currentTarget.value) })}
        />
      </div>
      <StationSettings />
      <Choices legend="Theme" options={THEMES} value={settings.theme} choose={(theme) => set({ theme })} />
      <p class="soft">
        {isKept ? 'Works without a network on this device.' : 'Needs the network: not kept on this device yet.'}
      </p>
      <p class="soft">
        <a href="./licences.txt" target="_blank" rel="noreferrer">
          What Otherseat is made of, and under which licences
        </a>
      </p>
    </main>
  )
}

/** To choose an ear that sends sound away is to allow it; nothing else does. */
function EarChoice() {
  const ear = useApp((state) => state.settings.ear)
  const secondModel = useApp((state) => state.settings.secondModel)
  const ears = useApp((state) => state.ears)
  const actions = useActions()
  const chosen = ears.find(({ name }) => name === ear)
  const options = [...ears.map(({ name, label, about }) => ({ value: name, label, about })), TYPING]
  return (
    <>
      <Choices
        legend="Ear"
        options={options}
        value={ear}
        choose={(ear) => {
          const { away } = ears.find(({ name }) => name === ear) ?? {}
          actions.settings({ ear, soundMayLeave: away !== undefined })
        }}
      />
      {chosen?.hasSecondModel && (
        <Choices
          legend="Recognised by"
          options={MODELS}
          value={secondModel ? 'on' : 'off'}
          choose={(use) => actions.settings({ secondModel: use === 'on' })}
        />
      )}
      {chosen?.away && (
        <p class="notice" role="status">
          <strong>What you say may leave this device.</strong> {chosen.away.reason}
        </p>
      )}
    </>
  )
}
