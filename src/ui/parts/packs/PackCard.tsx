/** One pack in the list: what it is, whether it can be flown, and what can be done with it. */

import { useState } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import type { PackEntry } from '../../../app/packs/shelfState.ts'
import { hasRunOn } from '../../../app/selectors.ts'
import { isError } from '../../../kernel/problem.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'
import { saveFile } from '../shell/saveFile.ts'
import { LinkTo } from './LinkTo.tsx'

const when = (at: number) => new Date(at).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' })

type Link = Awaited<ReturnType<Actions['linkTo']>>

export function PackCard({ entry }: { readonly entry: PackEntry }) {
  const { key, name, aircraft, pack, isOwn } = entry
  const isRunOn = useApp(hasRunOn)
  const actions = useActions()
  const [isNaming, setNaming] = useState(false)
  const [link, setLink] = useState<Link>()
  const share = async () => setLink(link ? undefined : await actions.linkTo(key))
  const save = async () => {
    const { name, bytes } = await actions.exportPack(key)
    saveFile(name, bytes)
  }
  return (
    <li>
      <article class="card stack" aria-label={name}>
        <div>
          <h3>{name}</h3>
          {aircraft && <p class="soft">{aircraft}</p>}
          <p class="small">{factsOf(entry).join('; ')}</p>
        </div>
        <Faults entry={entry} />
        <Newer entry={entry} />
        {link && <LinkTo link={link} name={name} />}
        {isNaming && <Rename entry={entry} done={() => setNaming(false)} />}
        <div class="row">
          {pack && (
            <button type="button" class="first" disabled={isRunOn} onClick={() => void actions.flyPack(key)}>
              Fly
            </button>
          )}
          {isOwn && (
            <button type="button" onClick={() => void actions.editFile(key, firstToMend(entry))}>
              Edit
            </button>
          )}
          <button type="button" onClick={() => void save()}>
            Export
          </button>
          <button type="button" aria-expanded={link !== undefined} onClick={() => void share()}>
            Link
          </button>
          {/* The second click of a double one makes no second copy. */}
          <button type="button" onClick={(event) => event.detail < 2 && void actions.copyPack(key)}>
            {isOwn ? 'Copy' : 'Copy to your own'}
          </button>
          {pack && (
            <button type="button" onClick={() => actions.showCards(key)}>
              Cards
            </button>
          )}
          {/* A name stands in pack.yaml: where that cannot be read, it is mended first. */}
          {isOwn && entry.id !== '' && (
            <button type="button" aria-expanded={isNaming} onClick={() => setNaming(!isNaming)}>
              Rename
            </button>
          )}
          {isOwn && (
            <button type="button" onClick={() => void actions.deletePack(key)}>
              Delete
            </button>
          )}
        </div>
      </article>
    </li>
  )
}

function factsOf({ version, lists, flownAt, changedAt }: PackEntry): string[] {
  return [
    version && `version ${version}`,
    lists === 1 ? '1 list' : `${lists} lists`,
    flownAt === undefined ? 'not flown yet' : `last flown ${when(flownAt)}`,
    changedAt === undefined ? '' : `changed ${when(changedAt)}`,
  ].filter((fact) => fact !== '')
}

/** The file with the first error, or the one to begin with. */
function firstToMend({ problems, paths }: PackEntry): string {
  return problems.find(isError)?.place?.file ?? paths.find((path) => path === 'procedures.yaml') ?? 'pack.yaml'
}

function Faults({ entry: { pack, problems, isOwn } }: { readonly entry: PackEntry }) {
  const count = problems.filter(isError).length
  if (!isOwn || count === 0) return null
  const [first] = problems.filter(isError)
  return (
    <p>
      <Mark name="unequal" /> <strong>{count === 1 ? 'One thing to mend' : `${count} things to mend`}</strong>{' '}
      {pack ? 'in its example sheets; it can be flown.' : 'before it can be flown; it is kept as it is.'}
      {first && (
        <span class="soft small block">
          {first.place && `${first.place.file}, line ${first.place.line}, column ${first.place.column}: `}
          {first.message}
        </span>
      )}
    </p>
  )
}

/** The pack that came with the app has gone on since one's copy was made. */
function Newer({ entry: { key, newer } }: { readonly entry: PackEntry }) {
  const actions = useActions()
  if (!newer) return null
  const { name, version, before } = newer
  const since = version === before ? `${name} has changed since` : `${name} is in version ${version} by now`
  return (
    <div class="stack">
      <p>
        Copied from {name}, version {before}, that came with the app; {since}.
      </p>
      <div class="row">
        <button type="button" onClick={() => void actions.showNewer(key)}>
          What has changed in it
        </button>
        <button type="button" onClick={() => void actions.settleNewer(key)}>
          Tell me no more
        </button>
      </div>
    </div>
  )
}

function Rename({ entry: { key, name }, done }: { readonly entry: PackEntry; readonly done: () => void }) {
  const actions = useActions()
  const [text, setText] = useState(name)
  const isRight = text.trim() !== ''
  return (
    <form
      class="row"
      aria-label={`Rename ${name}`}
      onSubmit={(event) => {
        event.preventDefault()
        if (!isRight) return
        void actions.renamePack(key, text.trim())
        done()
      }}
    >
      <div class="field">
        <label for={`name-${key}`}>Name</label>
        <input
          id={`name-${key}`}
          maxLength={100}
          value={text}
          aria-invalid={!isRight}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </div>
      <button type="submit" disabled={!isRight}>
        Take this name
      </button>
    </form>
  )
}
