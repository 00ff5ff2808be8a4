/** Marks of a moment, by one key or touch; the run's place goes with each. */

import { useEffect, useRef, useState } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import type { AppState, RoomState } from '../../../app/store.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { useApp } from '../../useApp.ts'
import { NoteButtons, RecordButton } from './NoteButtons.tsx'

const MARKS = [
  { words: 'late', label: 'Late', key: 'l' },
  { words: 'good catch', label: 'Good catch', key: 'g' },
  { words: 'look at this', label: 'Look at this', key: 't' },
] as const

interface MarksProps {
  readonly room: RoomState
  readonly notes: AppState['notes']
  readonly actions: Actions
}

export function Marks({ room, notes, actions }: MarksProps) {
  const runId = useApp((state) => state.run?.runId)
  const [words, setWords] = useState('')
  const own = useRef<HTMLInputElement>(null)
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
      const mark = MARKS.find(({ key }) => key === event.key.toLowerCase())
      if (mark) actions.markMoment(mark.words)
      else if (event.key.toLowerCase() === 'n') own.current?.focus()
      // Held down it would begin and end over and over.
      else if (event.key.toLowerCase() === 'v') event.repeat || void actions.recordNote()
      else return
      event.preventDefault()
    }
    addEventListener('keydown', press)
    return () => removeEventListener('keydown', press)
  }, [actions])
  const marks = room.marks.filter((mark) => mark.runId === runId)
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
        <RecordButton notes={notes} actions={actions} />
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
        <ol class="values" aria-label="Marks of this run">
          {marks.map((mark) => (
            <li key={mark.id}>
              {clockTime(mark.t)} {mark.words} <span class="soft">at {mark.place}</span>{' '}
              <NoteButtons mark={mark} notes={notes} actions={actions} />
            </li>
          ))}
        </ol>
      )}
    </section>
  )
}

const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.matches('input, textarea, select, [contenteditable]')
