/** A link that holds a pack, to be copied; or why there is none. */

import { useRef } from 'preact/hooks'
import { useCopy } from './useCopy.ts'

interface LinkToProps {
  readonly link: { readonly fragment: string } | { readonly wrong: string }
  readonly name: string
}

export function LinkTo({ link, name }: LinkToProps) {
  const field = useRef<HTMLInputElement>(null)
  const address = 'wrong' in link ? '' : new URL(`#${link.fragment}`, location.href).href
  const { copy, told } = useCopy(address, field, 'link')
  if ('wrong' in link) return <p role="status">{link.wrong}</p>
  return (
    <div class="stack">
      <label class="small">
        A link that holds {name} as it is now. Who opens it is asked before the pack is taken; no server gets it.
        <input ref={field} class="code" readOnly value={address} onFocus={(event) => event.currentTarget.select()} />
      </label>
      <div class="row">
        <button type="button" onClick={() => void copy()}>
          Copy the link
        </button>
        <span role="status" class="soft">
          {told}
        </span>
      </div>
    </div>
  )
}
