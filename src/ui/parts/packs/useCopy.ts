/** Copies a text to the clipboard; where the browser does not, its field is selected, and that is said. */

import { useState } from 'preact/hooks'

interface Field {
  readonly current: { select(): void } | null
}

interface Copying {
  readonly copy: () => Promise<void>
  /** What came of it; empty before. */
  readonly told: string
}

/** `what` is what the field holds: "link". */
export function useCopy(text: string, field: Field, what: string): Copying {
  const [told, setTold] = useState('')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      setTold('Copied.')
    } catch {
      field.current?.select()
      setTold(`The browser does not copy by itself: the ${what} is selected.`)
    }
  }
  return { copy, told }
}
