/** Prints the papers that lie open, one to a page. */

import { useEffect, useState } from 'preact/hooks'
import { setPage } from './pageSize.ts'

const SIZES = ['A4', 'A5'] as const
type Size = (typeof SIZES)[number]

export function Printing({ hasOpen }: { readonly hasOpen: boolean }) {
  const [size, setSize] = useState<Size>()
  useEffect(() => {
    if (!size) return
    const done = setPage(size, 12)
    globalThis.print()
    done()
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
