/** What came of the last thing done to packs, and what can be done about it. */

import { useEffect, useRef } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'
import { UndoLine } from '../shell/UndoLine.tsx'
import { Differences } from './Differences.tsx'

export function PackNews() {
  const unkept = useApp((state) => state.shelf.unkept)
  const refused = useApp((state) => state.shelf.refused)
  const told = useApp((state) => state.shelf.told)
  return (
    <div class="pack-news">
      <div role="alert" class="stack">
        {refused && (
          <p class="notice">
            <strong>Nothing was imported.</strong> {refused}
          </p>
        )}
        {unkept && (
          <p class="notice">
            <strong>Kept only until this page closes.</strong> {unkept} Your packs can be flown meanwhile: export what
            you would miss.
          </p>
        )}
      </div>
      <div role="status">
        {told.length > 0 && (
          <ul class="soft small">
            {told.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </div>
      <Linked />
      <Asked />
      <Comparison />
      <Undo />
    </div>
  )
}

/** Whoever sends a link may be anybody: what is in it is shown before it is taken. */
function Linked() {
  const linked = useApp((state) => state.shelf.linked)
  const actions = useActions()
  if (!linked) return null
  const { name, aircraft, version, lists } = linked
  return (
    <section class="card stack" aria-labelledby="linked" role="alert">
      <h2 id="linked">A link brings a pack: {name || 'without a name'}</h2>
      <p>
        {[aircraft, version && `version ${version}`, lists === 1 ? '1 list' : `${lists} lists`]
          .filter((fact) => fact !== '')
          .join('; ')}
        . Take it only from somebody you know: its figures and words are the sender's. Nothing of it is kept before you
        say so.
      </p>
      <div class="row">
        <button type="button" onClick={() => void actions.answerLink(true)}>
          Take it among your own packs
        </button>
        <button type="button" onClick={() => void actions.answerLink(false)}>
          Leave it
        </button>
      </div>
    </section>
  )
}

function Asked() {
  const asked = useApp((state) => state.shelf.asked)
  const actions = useActions()
  const first = useRef<HTMLButtonElement>(null)
  useEffect(() => first.current?.focus(), [asked])
  if (!asked) return null
  return (
    <section class="card stack" aria-labelledby="asked">
      <h2 id="asked">{asked.name} has the id of a pack that is there</h2>
      <p>It can take the place of {asked.there}, or lie beside it.</p>
      <details>
        <summary>What it says otherwise than {asked.there}</summary>
        <Differences differences={asked.differences} />
      </details>
      <div class="row">
        <button ref={first} type="button" onClick={() => void actions.answerImport('both')}>
          Keep both
        </button>
        <button type="button" onClick={() => void actions.answerImport('replace')}>
          Replace {asked.there}
        </button>
        <button type="button" onClick={() => void actions.answerImport('neither')}>
          Do not import
        </button>
      </div>
    </section>
  )
}

function Comparison() {
  const compared = useApp((state) => state.shelf.compared)
  const actions = useActions()
  const head = useRef<HTMLHeadingElement>(null)
  useEffect(() => head.current?.focus(), [compared])
  if (!compared) return null
  return (
    <section class="card stack" aria-labelledby="compared">
      <h2 id="compared" ref={head} tabIndex={-1}>
        From {compared.before} to {compared.after}
      </h2>
      <Differences differences={compared.differences} />
      <div>
        <button type="button" onClick={() => actions.closeComparison()}>
          Close
        </button>
      </div>
    </section>
  )
}

function Undo() {
  const undoable = useApp((state) => state.shelf.undoable)
  const actions = useActions()
  return <UndoLine undoable={undoable} undo={() => void actions.undoPacks()} />
}
