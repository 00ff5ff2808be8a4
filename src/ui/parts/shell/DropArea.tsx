/** Where files may be dropped; the file field that it holds is the way for everybody else. */

import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'

interface Props {
  readonly onFiles: (data: DataTransfer) => void
  readonly children: ComponentChildren
}

export function DropArea({ onFiles, children }: Props) {
  const [isOver, setOver] = useState(false)
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is the pointer's shortcut for the file field inside
    <div
      class={`drop stack ${isOver ? 'over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        if (event.dataTransfer) onFiles(event.dataTransfer)
      }}
    >
      {children}
    </div>
  )
}
