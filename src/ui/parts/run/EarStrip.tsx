/** The ear, heard and seen: whether it listens, how loud it is, what it is loading, and what to do when it has failed. */

import { useEffect } from 'preact/hooks'
import { nameOfBinding } from '../../../app/settings.ts'
import type { AppState } from '../../../app/store.ts'
import type { EarState } from '../../../ports.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Level } from '../settings/Level.tsx'
import { Mark, type MarkName } from '../shell/Mark.tsx'
import { TalkButton } from './TalkButton.tsx'

const STATES: Readonly<Record<EarState, { readonly text: string; readonly mark: MarkName }>> = {
  off: { text: 'Microphone off: type or press', mark: 'dash' },
  loading: { text: 'Loading the recogniser: type or press until it is ready', mark: 'half' },
  shut: { text: 'Not listening: Otherseat speaks', mark: 'dash' },
  guard: { text: 'About to listen', mark: 'ring' },
  open: { text: 'Listening', mark: 'waves' },
  hearing: { text: 'Hearing you', mark: 'waves' },
  failed: { text: 'Not listening: type or press', mark: 'dash' },
}

/** What the ear is doing, in words; or which key keeps it shut. */
export function earWords({ ear, settings, voice, run }: Pick<AppState, 'ear' | 'settings' | 'voice' | 'run'>): string {
  if (run?.isDeafened) return STATES.failed.text
  if (ear.state === 'shut' && voice.speaking && voice.role !== 'otherseat') return 'Not listening: a station speaks'
  if (ear.state === 'shut' && voice.speaking && voice.onRadio) return 'Not listening: your colleague speaks'
  if (ear.state !== 'shut' || ear.gate === 'open' || voice.speaking) return STATES[ear.state].text
  if (ear.gate === 'radio') return 'Not listening: radio key'
  const { talk } = settings.switches
  return talk ? `Hold ${nameOfBinding(talk)} to talk` : 'Hold the button to talk'
}

export function EarStrip() {
  const earState = useApp(({ ear, run }): EarState => (run?.isDeafened ? 'failed' : ear.state))
  const text = useApp(earWords)
  const { mark } = STATES[earState]
  return (
    <section class="ear" aria-label="Microphone">
      <p>
        <Mark name={mark} /> <strong>{text}</strong>
      </p>
      {earState === 'loading' ? <Loading /> : <Level />}
      <Said />
      <TalkButton />
      <Notices />
    </section>
  )
}

/** What the voice says, or said last. Words on the radio are to be heard, and stand nowhere by themselves. */
function Said() {
  const speaking = useApp((state) => state.voice.speaking)
  const role = useApp((state) => state.voice.role)
  const isOnRadio = useApp((state) => state.voice.onRadio)
  const isUnheard = useApp((state) => state.voice.failed)
  const last = useApp((state) => state.run?.said)
  if (speaking && isOnRadio) return <p class="said">{!isUnheard && 'Your colleague speaks on the radio'}</p>
  if (speaking && role !== 'otherseat') return <p class="said">{!isUnheard && SPEAKS[role]}</p>
  const said = speaking || last
  return <p class="said soft">{said && `Otherseat: “${said}”`}</p>
}

const SPEAKS = {
  controller: 'The controller speaks',
  broadcast: 'The broadcast speaks',
  groundCrew: 'The ground crew speaks',
} as const

function Loading() {
  const percent = useApp((state) => Math.round(state.ear.loading * 100))
  return (
    <>
      <div class="scale" role="progressbar" aria-label="Recogniser loaded" aria-valuenow={percent}>
        <span style={{ transform: `scaleX(${percent / 100})` }} />
      </div>
      <span class="small">{percent} %</span>
    </>
  )
}

/** Shown while the second model is missing, since more speech is then taken for an answer. */
const SECOND_MODEL = {
  loading: 'The second model is loading; the first works without it.',
  failed: 'The second model did not load: other speech may be taken for an answer.',
} as const

/** Another ear than the one chosen, sound that cannot be kept, or an ear that sends sound away. */
function noteOf({ ear, settings, ears, sounds }: AppState): string {
  if (ear.note) return ear.note
  if (sounds.notKept) return sounds.notKept
  if (ear.secondModel !== 'ready' && ear.secondModel !== 'none') return SECOND_MODEL[ear.secondModel]
  return ears.find(({ name }) => name === settings.ear)?.away?.note ?? ''
}

/** Why it fails, and what else there is to know of it: shown as long as that lasts, or until it is put away. */
function Notices() {
  const note = useApp(noteOf)
  const failure = useApp((state) => state.ear.failure?.message ?? '')
  const putAway = useApp((state) => state.ear.putAway)
  const actions = useActions()
  const told = [failure, note].filter((text) => text).join(' ')
  // Over with, it is told again when it comes again.
  useEffect(() => {
    if (putAway !== '' && putAway !== told) actions.putAwayNotice('')
  }, [putAway, told, actions])
  if (told === '' || told === putAway) return null
  return (
    <div class="notices">
      <div>
        {failure && <p role="alert">{failure}</p>}
        {note && <p class="small">{note}</p>}
      </div>
      <div class="row">
        {failure && (
          <button type="button" onClick={() => void actions.retryEar()}>
            Try the microphone again
          </button>
        )}
        <button type="button" onClick={() => actions.putAwayNotice(told)}>
          Put away<span class="hidden-label"> the notice of the microphone</span>
        </button>
      </div>
    </div>
  )
}
