/** The run played back in its own voices: pause, one thing on or back, anywhere by the slider, and faster. */

import { SPEEDS } from '../../../app/replay/player.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { Cue } from '../../../kernel/run/debrief/replay.ts'
import { useActions, useApp } from '../../useApp.ts'
import { StopHere } from './StopHere.tsx'

const WHO: Readonly<Record<Cue['by'], string>> = {
  otherseat: 'Otherseat',
  controller: 'Controller',
  groundCrew: 'Ground crew',
  broadcast: 'Broadcast',
  pilot: 'You',
  note: '',
}

export function Replay() {
  const replay = useApp((state) => state.replay)
  const actions = useActions()
  if (!replay) return null
  const { cues, at, speed, isPlaying } = replay
  const cue = cues[at]
  if (!cue) return <p class="soft">Nothing was said in this run.</p>
  return (
    <section class="replay card no-print" aria-label="Replay">
      <p aria-live="off">
        <span class="soft">{clockTime(cue.t)}</span> {WHO[cue.by] !== '' && <strong>{WHO[cue.by]}</strong>}{' '}
        {cue.by === 'note' ? <em>{cue.text}</em> : `“${cue.text}”`}
      </p>
      <input
        type="range"
        min={0}
        max={cues.length - 1}
        value={at}
        aria-label="Place in the run"
        aria-valuetext={`${clockTime(cue.t)}, ${cue.text}`}
        onInput={(event) => actions.replayTo(event.currentTarget.valueAsNumber)}
      />
      <div class="row">
        <button type="button" class="first" onClick={() => actions.replayPlays(!isPlaying)}>
          {isPlaying ? 'Pause' : 'Play'}
        </button>
        <button type="button" disabled={at === 0} onClick={() => actions.replayTo(at - 1)}>
          Previous
        </button>
        <button type="button" disabled={at === cues.length - 1} onClick={() => actions.replayTo(at + 1)}>
          Next
        </button>
        <fieldset class="row speeds">
          <legend class="hidden-label">Speed</legend>
          {SPEEDS.map((one) => (
            <label key={one}>
              <input
                type="radio"
                name="replay-speed"
                checked={one === speed}
                onChange={() => actions.replaySpeed(one)}
              />{' '}
              {one}×
            </label>
          ))}
        </fieldset>
        <button type="button" class="plain" onClick={() => actions.endReplay()}>
          Close
        </button>
      </div>
      <StopHere seq={cue.seq} />
    </section>
  )
}
