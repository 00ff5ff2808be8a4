/** What came of taking a draft, said where the button is: the list of packs stands far above it. */

import { useApp } from '../../useApp.ts'

interface DraftTakenProps {
  readonly id: string
  readonly name: string
  readonly questions: number
}

export function DraftTaken({ id, name, questions }: DraftTakenProps) {
  const asked = useApp((state) => state.shelf.asked)
  const refused = useApp((state) => state.shelf.refused)
  const entries = useApp((state) => state.shelf.entries)
  const isThere = entries?.some((entry) => entry.isOwn && entry.id === id) ?? false
  const told = asked
    ? `A pack with the id of ${name} is there already. Choose at the top of this page what becomes of it.`
    : refused !== ''
      ? `Nothing was imported. ${refused}`
      : isThere
        ? `${name} is among your own packs, with ${questions} open ${questions === 1 ? 'question' : 'questions'}.`
        : ''
  return (
    <div class="row">
      <span role="status">{told}</span>
      {isThere && !asked && (
        <button type="button" onClick={() => document.getElementById('own-packs')?.scrollIntoView?.()}>
          Show your own packs
        </button>
      )}
    </div>
  )
}
