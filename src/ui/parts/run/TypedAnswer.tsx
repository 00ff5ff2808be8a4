/** An answer typed in place of a spoken one: judged by the same line, and dated from its first key. */

import { useRef, useState } from 'preact/hooks'
import { useActions } from '../../useApp.ts'

/** `listenId`: the listening turn; the one at the first key goes with the answer. */
export function TypedAnswer({ listenId }: { readonly listenId: number }) {
  const actions = useActions()
  const [text, setText] = useState('')
  const began = useRef<{ listenId: number; at: number } | undefined>(undefined)
  const change = (next: string) => {
    setText(next)
    if (next === '') {
      began.current = undefined
      return
    }
    began.current ??= { listenId, at: Date.now() }
    actions.typing()
  }
  const send = (event: Event) => {
    event.preventDefault()
    if (text.trim() === '' || !began.current) return
    actions.type(text.trim(), began.current.listenId, began.current.at)
    change('')
  }
  return (
    <form class="typed" onSubmit={send}>
      <label for="typed" class="hidden-label">
        Answer or phrase, typed
      </label>
      <input
        id="typed"
        value={text}
        onInput={(event) => change(event.currentTarget.value)}
        placeholder="Type an answer"
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterkeyhint="send"
      />
      <button type="submit">Send</button>
    </form>
  )
}
