/** When a dead ear is worth another try: a device came or went, or the page was touched where only that was missing. */

import type { EarFailure } from '../../../ports.ts'

/** Calls `again` once; returns its undoing. A refusal and a broken model wait for the pilot. */
export function onComeback(failure: EarFailure, again: () => void): () => void {
  const undo: (() => void)[] = []
  const stop = () => {
    for (const one of undo.splice(0)) one()
  }
  const on = (target: EventTarget | undefined, type: string) => {
    const heard = () => {
      stop()
      again()
    }
    target?.addEventListener(type, heard)
    undo.push(() => target?.removeEventListener(type, heard))
  }
  const { code } = failure
  if (code === 'lost' || code === 'noMicrophone' || code === 'muted') on(navigator.mediaDevices, 'devicechange')
  if (code === 'audio') for (const gesture of ['pointerdown', 'keydown']) on(document, gesture)
  return stop
}
