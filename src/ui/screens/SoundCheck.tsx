/** The sound check: the voice heard, the level seen, eight lines read, and what follows from them. */

import { useEffect } from 'preact/hooks'
import type { Findings, PromptHeard } from '../../app/sound/soundPrompts.ts'
import { SOUND_PROMPTS } from '../../app/sound/soundPrompts.ts'
import type { SoundCheckState } from '../../app/store.ts'
import { TalkButton } from '../parts/run/TalkButton.tsx'
import { DeviceChoice } from '../parts/settings/DeviceChoice.tsx'
import { Level } from '../parts/settings/Level.tsx'
import { Mark } from '../parts/shell/Mark.tsx'
import { useActions, useApp } from '../useApp.ts'

export function SoundCheck() {
  const check = useApp((state) => state.soundCheck)
  const actions = useActions()
  useEffect(() => void actions.lookUpDevices(), [actions])
  return (
    <main class="page narrow stack wide">
      <h1 tabIndex={-1}>Sound check</h1>
      {!check && <Before />}
      {check?.stage === 'voice' && <Speaking />}
      {check?.stage === 'reading' && <Reading check={check} />}
      {check?.stage === 'failed' && <Failed message={check.message} />}
      {check?.stage === 'done' && check.findings && <Done findings={check.findings} />}
      {check && check.lines.length > 0 && <Lines lines={check.lines} />}
      <DeviceChoice />
      <div>
        <button type="button" class="plain" onClick={() => void actions.endSoundCheck(false)}>
          {check ? 'Stop without changes' : 'Skip it'}
        </button>
      </div>
    </main>
  )
}

function Before() {
  const actions = useActions()
  return (
    <section class="stack">
      <p>
        You hear a sentence. Then a tone calls each of eight short lines: look at your panel until it sounds, then at
        the screen, and read the line as you would on the radio, digits one by one. Your times are kept on this device:
        the debrief tells by them how likely it is that you looked before you answered. Sit where you fly, with the
        noise you fly in. Nothing is recorded.
      </p>
      <div>
        <button type="button" class="first" onClick={() => void actions.soundCheck()}>
          Begin
        </button>
      </div>
    </section>
  )
}

function Speaking() {
  const isLoading = useApp((state) => state.ear.state === 'loading')
  return (
    <p role="status">
      You should hear: “Sound check. Read the lines on the screen.”{' '}
      {isLoading && 'The recogniser is loading; allow the microphone if asked.'}
    </p>
  )
}

function Reading({ check }: { readonly check: SoundCheckState }) {
  const actions = useActions()
  const state = useApp(({ ear }) => ear.state)
  const line = SOUND_PROMPTS[check.lines.length]
  // Nothing has to be looked at: it stands there before the tone.
  const isKnown = line?.command !== undefined
  return (
    <section class="stack" aria-label="Line to read">
      {!check.hasVoice && (
        <p role="alert">
          The voice could not be heard: choose another one in the settings, or read along on the screen.
        </p>
      )}
      <p class="soft">
        {isKnown ? 'Say this at the tone, from memory' : 'Read aloud at the tone'}, line {check.lines.length + 1} of{' '}
        {SOUND_PROMPTS.length}
      </p>
      <p class="challenge" role="status">
        {isKnown || check.isShown ? line?.shown : 'Look at your panel'}
      </p>
      <div class="row meter">
        <span>
          <Mark name={state === 'open' || state === 'hearing' ? 'waves' : 'dash'} />{' '}
          {state === 'hearing' ? 'Hearing you' : state === 'open' ? 'Listening' : 'About to listen'}
        </span>
        <Level />
      </div>
      <TalkButton />
      <div>
        <button type="button" onClick={() => actions.skipPrompt()}>
          Skip this line
        </button>
      </div>
    </section>
  )
}

function Failed({ message }: { readonly message: string }) {
  const actions = useActions()
  return (
    <section class="stack">
      <p role="alert">{message}</p>
      <div>
        <button type="button" class="first" onClick={() => void actions.soundCheck()}>
          Try again
        </button>
      </div>
    </section>
  )
}

function Lines({ lines }: { readonly lines: readonly PromptHeard[] }) {
  return (
    <section class="stack" aria-labelledby="lines">
      <h2 id="lines">What was heard</h2>
      <ol class="thread" aria-label="Lines read">
        {lines.map(({ shown, text, isUnderstood }) => (
          <li key={shown}>
            <Mark name={isUnderstood ? 'full' : text ? 'unequal' : 'dash'} />
            <span>
              {shown} <strong>{isUnderstood ? 'understood' : text ? 'not understood' : 'skipped'}</strong>
            </span>
            {text && <span class="state">heard: {text}</span>}
          </li>
        ))}
      </ol>
    </section>
  )
}

const LEVELS: Readonly<Record<Exclude<Findings['level'], 'unknown'>, string>> = {
  good: 'Your voice comes in well.',
  faint: 'Your voice is faint: bring the microphone nearer, or turn it up in the system.',
  loud: 'Your voice is clipping: turn the microphone down, or move it away.',
}

function Done({ findings }: { readonly findings: Findings }) {
  const { understood, read, level, room, settings } = findings
  const actions = useActions()
  const follows = [
    settings.pauses === 'long' && 'You pause between words, so it waits longer for the end of an answer.',
    settings.digitsFirst && 'It asks for single digits at the first misunderstanding.',
    settings.fiveNine && 'It cannot tell your five from your nine: say "fife" and "niner", or say the value twice.',
    settings.listening === 'push' && 'The room is noisy, so it listens only while you hold the talk key.',
  ].filter((line) => line !== false)
  return (
    <section class="stack" aria-labelledby="found">
      <h2 id="found">{read === 0 ? 'No line was read' : `${understood} of ${read} lines understood`}</h2>
      <p>
        {level !== 'unknown' && LEVELS[level]} {room === 'loud' && 'The room is loud.'}
      </p>
      {follows.length > 0 ? (
        <ul class="stack">
          {follows.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : (
        <p>No setting needs to change.</p>
      )}
      <div class="row">
        <button type="button" class="first" onClick={() => void actions.endSoundCheck(true)}>
          {follows.length > 0 ? 'Keep this' : 'Good'}
        </button>
        <button type="button" onClick={() => void actions.soundCheck()}>
          Read them again
        </button>
      </div>
    </section>
  )
}
