/** The files of one's own pack, one at a time. */

import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { EditedFile, PackEntry } from '../../../app/packs/shelfState.ts'
import { questionAfter, questionsIn } from '../../../app/view/packForms.ts'
import { isError } from '../../../kernel/problem.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Beside, useLastSound } from './beside/Beside.tsx'
import type { TextPlaces } from './editor/fieldParts.ts'
import { PackForm } from './forms/PackForm.tsx'
import { PackText } from './PackText.tsx'

/** In the order in which a pack is written; a pack may lack some. */
const FILES = ['pack.yaml', 'figures.yaml', 'tables.yaml', 'procedures.yaml', 'papers.yaml', 'grading.yaml']

export function PackEditor() {
  const editing = useApp((state) => state.shelf.editing)
  const entries = useApp((state) => state.shelf.entries)
  const actions = useActions()
  const listed = entries?.find(({ key }) => key === editing?.key)
  const entry = listed && { ...listed, ...editing?.checked }
  const sound = useLastSound(entry?.pack)
  const [offset, setOffset] = useState(0)
  const file = `${editing?.key} ${editing?.path}`
  const places = useRef<TextPlaces>({ goTo() {}, show() {} })
  const toShow = useRef<number | undefined>(undefined)
  const show = (at: number) => {
    setOffset(at)
    toShow.current = at
    // Behind the text that it is an offset of.
    setTimeout(() => {
      if (toShow.current !== undefined) places.current.show(toShow.current)
      toShow.current = undefined
    })
  }
  const at = editing?.at
  useEffect(() => (at === undefined ? setOffset(0) : show(at)), [file, at])
  const isUnsaved = useRef(false)
  isUnsaved.current = editing?.isSaved === false
  useEffect(() => {
    const save = () => void actions.saveFile()
    // A page that is closed or loaded anew at once: the browser asks first where the last words are not stored yet.
    const hold = (event: BeforeUnloadEvent) => {
      save()
      if (isUnsaved.current) event.preventDefault()
    }
    document.addEventListener('visibilitychange', save)
    window.addEventListener('beforeunload', hold)
    return () => {
      document.removeEventListener('visibilitychange', save)
      window.removeEventListener('beforeunload', hold)
      void actions.closeFile()
    }
  }, [actions])
  const all = entry?.problems
  const problems = useMemo(
    () => (all ?? []).filter(({ place }) => (place?.file ?? 'pack.yaml') === editing?.path),
    [all, editing?.path],
  )
  if (!editing) return null
  return (
    <main class="page pack-editor">
      <div class="row">
        <h1 tabIndex={-1}>{entry?.name ?? 'Pack'}</h1>
        <button type="button" onClick={() => void actions.closeFile()}>
          All packs
        </button>
        {entry?.pack && editing.isSaved && <FlyEdited entry={entry} />}
        {editing.undoable && (
          <button type="button" onClick={() => void actions.undoFile()}>
            Undo: {editing.undoable}
          </button>
        )}
        <OpenQuestions text={editing.text} offset={offset} show={show} />
        <span role="status" class="soft small">
          {editing.isSaved ? 'Saved' : editing.elsewhere ? 'Not saved' : 'Saving'}
        </span>
      </div>
      {entry && <FileChoice entry={entry} editing={editing} />}
      {editing.elsewhere && <Elsewhere editing={editing} />}
      <div class="pack-desk">
        <PackText
          key={file}
          pack={editing.key}
          label={editing.path}
          value={editing.text}
          files={editing.files}
          problems={problems}
          places={places}
          onChange={actions.changeFile}
          onCursor={setOffset}
        />
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
        <section class="beside stack" tabIndex={0} aria-label="At the cursor">
          <PackForm
            {...{ files: editing.files, path: editing.path, text: editing.text, offset, problems }}
            onWrite={(text, words, at) => {
              actions.writeFile(text, words)
              if (at !== undefined) show(at)
            }}
            onShow={show}
          />
          <Beside {...sound} files={editing.files} path={editing.path} text={editing.text} offset={offset} />
        </section>
      </div>
    </main>
  )
}

interface OpenQuestionsProps {
  readonly text: string
  readonly offset: number
  readonly show: (offset: number) => void
}

/** What a draft from paper left open in the file, one after the other. */
function OpenQuestions({ text, offset, show }: OpenQuestionsProps) {
  const questions = useMemo(() => questionsIn(text), [text])
  const next = questionAfter(questions, offset)
  if (!next) return null
  return (
    <button type="button" onClick={() => show(next.about)}>
      {questions.length} to settle here: show the next
    </button>
  )
}

function FlyEdited({ entry: { key } }: { readonly entry: PackEntry }) {
  const actions = useActions()
  return (
    <button type="button" onClick={() => void actions.flyPack(key)}>
      Fly
    </button>
  )
}

/** Files that the pack has, and those that it may have. */
function FileChoice({ entry, editing }: { readonly entry: PackEntry; readonly editing: EditedFile }) {
  const actions = useActions()
  const sheets = entry.paths.filter((path) => !FILES.includes(path)).toSorted()
  return (
    <nav class="pile" aria-label="Files of the pack">
      {[...FILES, ...sheets].map((path) => {
        const count = entry.problems.filter((one) => isError(one) && one.place?.file === path).length
        const isThere = entry.paths.includes(path)
        const isOpen = path === editing.path
        const questions = questionsIn((isOpen ? editing.text : editing.files[path]) ?? '').length
        return (
          <button key={path} type="button" aria-pressed={isOpen} onClick={() => void actions.editFile(entry.key, path)}>
            {path}
            {count > 0 && <small>{count === 1 ? '1 to mend' : `${count} to mend`}</small>}
            {count === 0 && questions > 0 && <small>{questions} to settle</small>}
            {!isThere && count === 0 && questions === 0 && <small>not there</small>}
          </button>
        )
      })}
    </nav>
  )
}

function Elsewhere({ editing: { elsewhere } }: { readonly editing: EditedFile }) {
  const actions = useActions()
  const isDeleted = elsewhere === 'deleted'
  return (
    <section class="card stack" role="alert">
      <p>
        {isDeleted
          ? 'Another tab has deleted this pack. What stands here is not saved.'
          : 'Another tab has changed this file since. What stands here is not saved.'}
      </p>
      <div class="row">
        <button type="button" onClick={() => void actions.settleFile('mine')}>
          {isDeleted ? 'Keep the pack' : 'Keep what stands here'}
        </button>
        <button type="button" onClick={() => void actions.settleFile('theirs')}>
          {isDeleted ? 'Let it go' : 'Take what the other tab has'}
        </button>
      </div>
    </section>
  )
}
