/** Packs: those that came with the app and one's own, brought in and out, edited, flown. */

import { useEffect } from 'preact/hooks'
import { hasRunOn } from '../../app/selectors.ts'
import { ComparePacks } from '../parts/packs/ComparePacks.tsx'
import { Cards } from '../parts/packs/cards/Cards.tsx'
import { writtenFiles } from '../parts/packs/handedFiles.ts'
import { ImportPack } from '../parts/packs/ImportPack.tsx'
import { NewPack } from '../parts/packs/NewPack.tsx'
import { PackCard } from '../parts/packs/PackCard.tsx'
import { PackEditor } from '../parts/packs/PackEditor.tsx'
import { PackNews } from '../parts/packs/PackNews.tsx'
import { PaperDraft } from '../parts/packs/PaperDraft.tsx'
import { useActions, useApp } from '../useApp.ts'

export function Packs() {
  const isEditing = useApp((state) => state.shelf.editing !== undefined)
  const actions = useActions()
  useEffect(() => void actions.readPacks(), [actions])
  const printed = useApp(({ shelf }) => shelf.entries?.find(({ key }) => key === shelf.cards)?.pack)
  if (isEditing) return <PackEditor />
  return printed ? <Cards pack={printed} /> : <AllPacks />
}

function AllPacks() {
  const read = useApp((state) => state.shelf.entries)
  const entries = read ?? []
  const isRunOn = useApp(hasRunOn)
  const actions = useActions()
  const mine = entries.filter(({ isOwn }) => isOwn)
  return (
    <main class="page narrow stack wide">
      <div class="stack">
        <h1 tabIndex={-1}>Packs</h1>
        <p>
          A pack is an aircraft with its figures, lists and procedures. Your own are kept in this browser and nowhere
          else: export what you would miss.
        </p>
        {isRunOn && (
          <p class="soft">
            A run is under way. It keeps the pack that it began with, whatever you do here. To fly another, end it on
            the start screen.
          </p>
        )}
        <PackNews />
      </div>
      <section class="stack" aria-labelledby="own-packs">
        <h2 id="own-packs">Your own</h2>
        {!read && <p class="soft">Your packs are being read.</p>}
        {read && mine.length === 0 && (
          <p class="soft">
            None yet. Begin a new one, import one, make one from a checklist on paper, or copy one that came with the
            app.
          </p>
        )}
        <ul class="stack">
          {mine.map((entry) => (
            <PackCard key={entry.key} entry={entry} />
          ))}
        </ul>
      </section>
      <NewPack />
      <ImportPack />
      <PaperDraft onTake={(files) => void actions.importPack(writtenFiles(files))} />
      {entries.length > 1 && <ComparePacks entries={entries} />}
      <section class="stack" aria-labelledby="app-packs">
        <h2 id="app-packs">Came with the app</h2>
        <ul class="stack">
          {entries
            .filter(({ isOwn }) => !isOwn)
            .map((entry) => (
              <PackCard key={entry.key} entry={entry} />
            ))}
        </ul>
      </section>
    </main>
  )
}
