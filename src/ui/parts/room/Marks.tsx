/** Marks of a moment, by one key or touch; the run's place goes with each. */

import { useEffect, useRef, useState } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import type { RoomState } from '../../../app/store.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { useApp } from '../../useApp.ts'
import { saveFile } from '../shell/saveFile.ts'

const MARKS = [
  { words: 'late', label: 'Late', key: 'l' },
  { words: 'good catch', label: 'Good catch', key: 'g' },
  { words: 'look at this', label: 'Look at this', key: 't' },
] as const

interface MarksProps {
  readonly room: RoomState
  readonly actions: Actions
}

export function Marks({ room, actions }: MarksProps) {
  const runId = useApp((state) => state.run?.runId)
  const isOver = useApp(({ run }) => run?.status === 'ended' || run?.floor.at === 'end')
  const [words, setWords] = useState('')
  const own = useRef<HTMLInputElement>(null)
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
      const mark = MARKS.find(({ key }) => key === event.key.toLowerCase())
      if (mark) actions.markMoment(mark.words)
      else if (event.key.toLowerCase() === 'n') own.current?.focus()
      else return
      event.preventDefault()
    }
    addEventListener('keydown', press)
    return () => removeEventListener('keydown', press)
  }, [actions])
  const marks = room.marks.filter((mark) => mark.runId === runId)
  const isShown = runId !== undefined && room.shown.has(runId)
  const save = () => {
    const file = actions.saveMarkedRun()
    if (file) saveFile(file.name, file.content)
  }
  if (runId === undefined) return null
  return (
    <section class="stack" aria-labelledby="marks">
      <h2 id="marks">Mark this moment</h2>
      <div class="row">
        {MARKS.map(({ words: mark, label, key }) => (
          <button key={mark} type="button" onClick={() => actions.markMoment(mark)}>
            {label} <small>{key.toUpperCase()}</small>
          </button>
        ))}
      </div>
      <form
        class="row own-words"
        onSubmit={(event) => {
          event.preventDefault()
          actions.markMoment(words)
          setWords('')
          own.current?.blur()
        }}
      >
        <label>
          In your own words <small class="soft">N</small>
          <input
            ref={own}
            value={words}
            maxLength={200}
            onInput={({ currentTarget }) => setWords(currentTarget.value)}
          />
        </label>
        <button type="submit" disabled={words.trim() === ''}>
          Mark
        </button>
      </form>
      {marks.length > 0 && (
        <>
          <ol class="values" aria-label="Marks of this run">
            {marks.map(({ id, t, place, words: mark }) => (
              <li key={id}>
                {clockTime(t)} {mark} <span class="soft">at {place}</span>
              </li>
            ))}
          </ol>
          {isShown ? (
            <p>The trainee’s debrief has these marks, and those that you add.</p>
          ) : (
            <div>
              <button type="button" disabled={!isOver} onClick={() => actions.showMarks()}>
                Show them in the trainee’s debrief
                {!isOver && <small>once the run is at its end</small>}
              </button>
            </div>
          )}
        </>
      )}
      <div>
        <button type="button" class="plain" onClick={save}>
          Save the run with its marks
        </button>
      </div>
    </section>
  )
}

const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.matches('input, textarea, select, [contenteditable]')
