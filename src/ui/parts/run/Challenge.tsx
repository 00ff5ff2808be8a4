/** The challenge, line, question or flow, readable at arm's length, with what to do and the caution. */

import { useEffect, useRef } from 'preact/hooks'
import type { RunView } from '../../../app/view/view.ts'
import { useActions, useApp } from '../../useApp.ts'
import { WatchClock } from './WatchPanel.tsx'

/** Longer words than these get a smaller size, so that a line holds them. */
const LONG = 26
/** Where much stands below it: who speaks, and what is to be said. */
const LONG_ABOVE_MORE = 12

export function Challenge({ view }: { readonly view: RunView }) {
  const voiceFailed = useApp((state) => state.voice.failed)
  const role = useApp((state) => state.voice.role)
  const isOnRadio = useApp((state) => state.voice.onRadio)
  const actions = useActions()
  const { headline, kind, hint, caution, phase, listName, begunAt } = view
  const top = useRef<HTMLDivElement>(null)
  // A pilot who types has scrolled down to the field: what is asked next must be seen.
  useEffect(() => top.current?.scrollIntoView?.({ block: 'nearest' }), [headline])
  const most = kind === 'exchange' || kind === 'briefing' ? LONG_ABOVE_MORE : LONG
  const size = headline.length > most ? 'long' : ''
  return (
    <div class="stack put">
      <div class="now" ref={top}>
        <p class="soft">
          {phase}
          {listName && listName.toLowerCase() !== phase.toLowerCase() && `, ${listName}`}
          {begunAt !== undefined && <small> Begun at {begunAt}</small>}
        </p>
        <div class="challenge-line">
          <h1
            class={`challenge ${size} ${voiceFailed ? 'louder' : ''}`}
            tabIndex={-1}
            aria-live={voiceFailed ? 'assertive' : 'off'}
          >
            {headline}
          </h1>
          {view.watch && <WatchClock watch={view.watch} />}
        </div>
      </div>
      <p class="hint">{hint}</p>
      {caution && (
        <p class="notice">
          <strong>Caution</strong> {caution}
        </p>
      )}
      {kind === 'againOver' && (
        <div>
          <button type="button" class="first" onClick={() => void actions.endAgain()}>
            End the drill, read how it went
          </button>
        </div>
      )}
      {kind === 'end' && (
        <div>
          <button type="button" class="first" onClick={() => void actions.showDebrief()}>
            Read the debrief
          </button>
        </div>
      )}
      {voiceFailed && (
        <p class="soft">
          {isOnRadio
            ? 'The voice of your colleague cannot be heard.'
            : role === 'otherseat'
              ? 'The voice cannot be heard: read the challenge here.'
              : 'The voice of the station cannot be heard: show its words.'}
        </p>
      )}
    </div>
  )
}
