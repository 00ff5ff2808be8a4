/** Prints the papers that lie open, one to a page. */

import { useEffect, useState } from 'preact/hooks'

const SIZES = ['A4', 'A5'] as const
type Size = (typeof SIZES)[number]

export function Printing({ hasOpen }: { readonly hasOpen: boolean }) {
  const [size, setSize] = useState<Size>()
  useEffect(() => {
    if (!size) return
    // The page's size can be given in a style sheet alone.
    const style = document.createElement('style')
    style.textContent = `@page { size: ${size}; margin: 12mm; }`
    document.head.append(style)
    globalThis.print()
    style.remove()
    setSize(undefined)
  }, [size])
  return (
    <>
      {SIZES.map((one) => (
        <button key={one} type="button" disabled={!hasOpen} onClick={() => setSize(one)}>
          Print on {one}
        </button>
      ))}
    </>
  )
}
