/** The form of what the cursor stands in: it writes the same text, and what it cannot show it leaves alone and names. */

import { useLayoutEffect, useMemo, useState } from 'preact/hooks'
import {
  besideOf,
  edited,
  type Field,
  type FieldValue,
  type Form,
  formAt,
  type OpenQuestion,
  settled,
  type ThingChange,
  topOf,
  withField,
  withGroup,
  withThing,
  withTop,
} from '../../../../app/view/packForms.ts'
import type { Problem } from '../../../../kernel/problem.ts'
import { FormField } from './FormField.tsx'
import { TableGrid } from './TableGrid.tsx'

export interface PackFormProps {
  readonly files: Readonly<Record<string, string>>
  readonly path: string
  readonly text: string
  readonly offset: number
  readonly problems: readonly Problem[]
  /** What was written, in words, and where the cursor is to stand then. */
  readonly onWrite: (text: string, words: string, offset?: number) => void
  readonly onShow: (offset: number) => void
}

const REST_MS = 60

export function PackForm(props: PackFormProps) {
  const { files, path, text, offset, problems, onWrite, onShow } = props
  // Keys of the editor do not wait for the form, those of the form do.
  const [seen, setSeen] = useState({ text, offset })
  // Before anything else can run: what is due from before a form wrote would bring back the form of before, to be typed into.
  useLayoutEffect(() => {
    const timer = setTimeout(() => setSeen({ text, offset }), REST_MS)
    return () => clearTimeout(timer)
  }, [text, offset])
  const view = useMemo(
    () => formAt({ ...files, [path]: seen.text }, path, seen.offset, problems),
    [files, path, seen, problems],
  )
  const write = (next: string, words: string, at = offset) => {
    setSeen({ text: next, offset: at })
    onWrite(next, words, at === offset ? undefined : at)
  }
  const show = (at: number) => {
    setSeen({ text, offset: at })
    onShow(at)
  }
  const add = (kind: string) => {
    const changed = withTop(text, path, kind)
    if (changed) write(changed.text, `new ${kind}`, changed.offset)
  }
  const adds = (
    <div class="row">
      {topOf(path).map((kind) => (
        <button key={kind} type="button" onClick={() => add(kind)}>
          Add {withArticle(kind)}
        </button>
      ))}
    </div>
  )
  if (!view) {
    const isEmpty = text.trim() === ''
    return isEmpty ? (
      <div class="stack">
        <p class="soft">The file is empty.</p>
        {adds}
      </div>
    ) : (
      <p class="soft">The text has a slip that hides the rest: mend it first, and its form is back.</p>
    )
  }
  const { form, places, questions } = view
  const start = places.find(({ path }) => path.join('.') === form?.path.join('.'))
  return (
    <section class="stack pack-form" aria-label="Form">
      {places.length > 0 && (
        <div class="field">
          <label for="form-of" class="cap">
            Form of
          </label>
          <select
            id="form-of"
            value={start === undefined ? '' : String(start.offset)}
            onChange={({ currentTarget: { value } }) => show(Number(value))}
          >
            {start === undefined && <option value="">choose, or put the cursor in it</option>}
            {places.map((one) => (
              <option key={one.offset} value={String(one.offset)}>
                {'\u00a0'.repeat(one.depth)}
                {one.kind}: {one.title}
              </option>
            ))}
          </select>
        </div>
      )}
      {!form && <Questions text={text} questions={questions} onWrite={write} />}
      {form && (
        <FormBody
          key={`${form.kind} ${form.path.slice(0, -1).join('.')} ${form.at} ${form.of}`}
          {...props}
          onWrite={write}
          onShow={show}
          form={form}
        />
      )}
      {(!form || form.path.length === 0) && adds}
    </section>
  )
}

interface QuestionsProps {
  readonly text: string
  readonly questions: readonly OpenQuestion[]
  readonly onWrite: (text: string, words: string) => void
}

/** What a draft left open. */
function Questions({ text, questions, onWrite }: QuestionsProps) {
  const take = (question: OpenQuestion) => {
    const next = settled(text, question)
    if (next !== undefined) onWrite(next, 'a question, settled')
  }
  return (
    <>
      {questions.map((question) => (
        <div key={question.from} class="row">
          <p>
            <span class="soft">To settle:</span> {question.text}
          </p>
          <button type="button" onClick={() => take(question)}>
            Settled
          </button>
        </div>
      ))}
    </>
  )
}

function FormBody({ form, text, path: file, onWrite, onShow }: PackFormProps & { readonly form: Form }) {
  const [told, setTold] = useState('')
  // What is filled in stays where it is while it is being filled in.
  const [first] = useState(() => new Set(form.fields.filter((one) => one.isThere || one.isNeeded).map(keyOf)))
  const of = `of ${form.title}`
  const write = (next: string | undefined, words: string, offset?: number) => {
    setTold(next === undefined ? 'That cannot be written by the form here: change it in the text.' : '')
    if (next !== undefined) onWrite(next, words, offset)
  }
  const field = (one: Field) => (
    <FormField
      key={keyOf(one)}
      field={one}
      write={(at: Field, value: FieldValue | undefined) => write(withField(text, at, value), `${at.label} ${of}`)}
      writeGroup={(at: Field, isWanted: boolean) => write(withGroup(text, at, isWanted), `${at.label} ${of}`)}
    />
  )
  const change = (what: ThingChange, words: string) => {
    const changed = withThing(text, file, form, what)
    write(changed?.text, words, changed?.offset)
  }
  const isShown = (one: Field) => first.has(keyOf(one)) || one.isNeeded
  const more = form.fields.filter((one) => !isShown(one))
  const { kind, leftAlone, foreign, grid, problems, questions, inner, inside } = form
  const last = form.path.at(-1)
  const isOne = last === undefined
  return (
    <>
      {problems.map(({ message }) => (
        <p key={message} class="wrong-entry small">
          {message}
        </p>
      ))}
      <Questions text={text} questions={questions} onWrite={write} />
      {foreign.map(({ path, label }) => (
        <div key={label} class="row">
          <button
            type="button"
            onClick={() => write(edited(text, { type: 'remove', path }), `${label} ${of}, taken out`)}
          >
            Take out {label}
          </button>
          <span class="small soft">which it does not have</span>
        </div>
      ))}
      {form.name !== undefined && (
        <Name
          key={form.name}
          name={form.name}
          rename={(name) => {
            const next = edited(text, { type: 'rename', path: form.path, name })
            if (next !== undefined) write(next, `name ${of}`)
            return next !== undefined
          }}
        />
      )}
      {form.fields.filter(isShown).map(field)}
      {grid && <TableGrid text={text} grid={grid} write={write} />}
      {more.length > 0 && (
        <details>
          <summary>More that it may have</summary>
          <div class="stack">{more.map(field)}</div>
        </details>
      )}
      {inner.length > 0 && (
        <div class="row">
          <span class="soft">With a form of its own:</span>
          {inner.map((one) => (
            <button key={one.offset} type="button" class="plain" onClick={() => onShow(one.offset)}>
              {one.kind} {String(one.path.at(-1))}
            </button>
          ))}
        </div>
      )}
      {leftAlone.length > 0 && <p class="small soft">In the text alone, and left as it is: {leftAlone.join(', ')}.</p>}
      {inside.length > 0 && (
        <div class="row">
          {inside.map((one) => (
            <button key={one} type="button" onClick={() => change({ inside: one }, `new ${one}`)}>
              Add {withArticle(one)} inside
            </button>
          ))}
        </div>
      )}
      {!isOne && (
        <div class="row">
          {besideOf(file, kind).map((one) => (
            <button key={one} type="button" onClick={() => change({ beside: one }, `new ${one}`)}>
              Add {withArticle(one)} below
            </button>
          ))}
          <button type="button" disabled={form.at <= 0} onClick={() => change('up', `place ${of}`)}>
            Move up
          </button>
          <button type="button" disabled={form.at >= form.of - 1} onClick={() => change('down', `place ${of}`)}>
            Move down
          </button>
          <button type="button" onClick={() => change('delete', `${kind} ${form.title}`)}>
            Delete the {kind}
          </button>
        </div>
      )}
      <p role="status" class="small">
        {told}
      </p>
    </>
  )
}

const withArticle = (kind: string) => `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`

const keyOf = ({ path }: Field) => String(path.at(-1))

interface NameProps {
  readonly name: string
  /** False where it cannot be called so. */
  readonly rename: (name: string) => boolean
}

function Name({ name, rename }: NameProps) {
  const [typed, setTyped] = useState(name)
  const [told, setTold] = useState('')
  const isRight = /^[A-Za-z][A-Za-z0-9]*$/.test(typed)
  const leave = () => {
    if (typed === name) return setTold('')
    if (isRight && rename(typed)) return
    const why = isRight ? 'another one has that name' : 'a name is letters and digits, a letter first'
    setTold(`“${typed}” was not taken: ${why}.`)
    setTyped(name)
  }
  return (
    <div class="field">
      <label for="form-name" class="cap">
        name
      </label>
      <input
        id="form-name"
        value={typed}
        aria-invalid={!isRight}
        aria-describedby="form-name-about"
        autocomplete="off"
        spellcheck={false}
        onInput={({ currentTarget: { value } }) => setTyped(value)}
        onBlur={leave}
      />
      <div id="form-name-about" class="small">
        {told && (
          <p role="status" class="wrong-entry">
            {told}
          </p>
        )}
        <p class="soft">Letters and digits, as other places call it; these are not changed with it.</p>
      </div>
    </div>
  )
}
