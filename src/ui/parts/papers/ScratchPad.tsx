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
  const isKept = text === kept.text
  const keep = () => {
    clearTimeout(pending.current)
    if (!isKept) actions.writePad({ text, strokes: kept.strokes })
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
      <Drawing strokes={kept.strokes} draw={(strokes) => actions.writePad({ text, strokes })} />
    </section>
  )
}

interface DrawingProps {
  readonly strokes: readonly Stroke[]
  readonly draw: (strokes: readonly Stroke[]) => void
}

function Drawing({ strokes, draw }: DrawingProps) {
  const [line, setLine] = useState<Stroke>()
  const at = (event: PointerEvent): Stroke => {
    const { left, top, width } = (event.currentTarget as Element).getBoundingClientRect()
    const scaled = (length: number) => Math.round((length * WIDTH) / width)
    return [scaled(event.clientX - left), scaled(event.clientY - top)]
  }
  const end = () => {
    if (line && line.length > 2) draw([...strokes, line])
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
        onPointerMove={(event) => line && setLine([...line, ...at(event)])}
        onPointerUp={end}
        onPointerCancel={() => setLine(undefined)}
      >
        {[...strokes, ...(line ? [line] : [])].map((stroke, index) => (
          <polyline key={index} points={stroke.join(' ')} />
        ))}
      </svg>
      <div class="row">
        <button type="button" disabled={strokes.length === 0} onClick={() => draw(strokes.slice(0, -1))}>
          Take the last stroke back
        </button>
        <button type="button" disabled={strokes.length === 0} onClick={() => draw([])}>
          Wipe
        </button>
      </div>
    </>
  )
}
