/** The pilot's own notes: typed, or written by pen, finger or mouse. What is copied down is the pilot's to read. */

import { useEffect, useRef, useState } from 'preact/hooks'
import type { RunState } from '../../../kernel/run/core/state.ts'
import { useActions, useApp } from '../../useApp.ts'

type Stroke = RunState['pad']['strokes'][number]

/** As typed so far is kept a moment after the last key, and when the field is left. */
const KEEP_AFTER_MS = 700
/** Of the pad's width, in which strokes are kept. */
const WIDTH = 1000
const HEIGHT = 450
const NO_PAD: RunState['pad'] = { text: '', strokes: [] }

export function ScratchPad() {
  const actions = useActions()
  const kept = useApp((state) => state.run?.pad ?? NO_PAD)
  const [text, setText] = useState(kept.text)
  const pending = useRef<ReturnType<typeof setTimeout>>(undefined)
  // A quick hand is ahead of the log: the next stroke must not take the place of one that is still being stored.
  const drawn = useRef(kept.strokes)
  const [strokes, setStrokes] = useState(kept.strokes)
  const draw = (change: (strokes: readonly Stroke[]) => readonly Stroke[]) => {
    drawn.current = change(drawn.current)
    setStrokes(drawn.current)
    actions.writePad({ text, strokes: drawn.current })
  }
  const isKept = text === kept.text
  const keep = () => {
    clearTimeout(pending.current)
    if (!isKept) actions.writePad({ text, strokes: drawn.current })
  }
  useEffect(() => {
    pending.current = setTimeout(keep, KEEP_AFTER_MS)
    return () => clearTimeout(pending.current)
  }, [text])
  return (
    <section class="pad no-print" aria-labelledby="pad">
      <h2 id="pad">Scratch pad</h2>
      <textarea
        aria-label="Notes"
        rows={4}
        spellcheck={false}
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
        onBlur={keep}
      />
      <Drawing strokes={strokes} draw={draw} />
    </section>
  )
}

interface DrawingProps {
  readonly strokes: readonly Stroke[]
  readonly draw: (change: (strokes: readonly Stroke[]) => readonly Stroke[]) => void
}

function Drawing({ strokes, draw }: DrawingProps) {
  // The hand is quicker than the screen: the line is kept here, and shown when there is time.
  const line = useRef<Stroke>(undefined)
  const [, show] = useState<Stroke>()
  const setLine = (next: Stroke | undefined) => {
    line.current = next
    show(next)
  }
  const at = (event: PointerEvent): Stroke => {
    const { left, top, width } = (event.currentTarget as Element).getBoundingClientRect()
    const scaled = (length: number) => Math.round((length * WIDTH) / width)
    return [scaled(event.clientX - left), scaled(event.clientY - top)]
  }
  const end = () => {
    const { current } = line
    if (current && current.length > 2) draw((before) => [...before, current])
    setLine(undefined)
  }
  return (
    <>
      <svg
        class="drawing"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Written by hand, ${strokes.length} strokes`}
        onPointerDown={(event) => {
          ;(event.currentTarget as Element).setPointerCapture(event.pointerId)
          setLine(at(event))
        }}
        onPointerMove={(event) => line.current && setLine([...line.current, ...at(event)])}
        onPointerUp={end}
        onPointerCancel={() => setLine(undefined)}
      >
        {[...strokes, ...(line.current ? [line.current] : [])].map((stroke, index) => (
          <polyline key={index} points={stroke.join(' ')} />
        ))}
      </svg>
      <div class="row">
        <button type="button" disabled={strokes.length === 0} onClick={() => draw((before) => before.slice(0, -1))}>
          Take the last stroke back
        </button>
        <button type="button" disabled={strokes.length === 0} onClick={() => draw(() => [])}>
          Wipe
        </button>
      </div>
    </>
  )
}
