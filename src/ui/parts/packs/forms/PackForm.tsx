/** The form of what the cursor stands in: it writes the same text, and what it cannot show it leaves alone and names. */

import { useLayoutEffect, useMemo, useState } from 'preact/hooks'
import {
  canAdd,
  edited,
  type Field,
  type FieldValue,
  type Form,
  formAt,
  type ThingChange,
  withField,
  withGroup,
  withThing,
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
  if (!view) {
    const isEmpty = text.trim() === ''
    return (
      <p class="soft">
        {isEmpty
          ? 'The file is empty.'
          : 'The text has a slip that hides the rest: mend it first, and its form is back.'}
      </p>
    )
  }
  const { form, places } = view
  const start = places.findLast(
    (one) => one.title === form?.title && one.kind === form.kind && one.offset <= seen.offset + 2,
  )
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
      {form && <FormBody key={`${form.kind} ${start?.offset}`} {...props} onWrite={write} form={form} />}
    </section>
  )
}

function FormBody({ form, text, path: file, onWrite }: PackFormProps & { readonly form: Form }) {
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
  const more = form.fields.filter((one) => !first.has(keyOf(one)))
  const { kind, leftAlone, grid, problems } = form
  const last = form.path.at(-1)
  const isOne = last === undefined
  return (
    <>
      {problems.map(({ message }) => (
        <p key={message} class="wrong-entry small">
          {message}
        </p>
      ))}
      {form.name !== undefined && (
        <Name
          name={form.name}
          rename={(name) => write(edited(text, { type: 'rename', path: form.path, name }), `name ${of}`)}
        />
      )}
      {form.fields.filter((one) => first.has(keyOf(one))).map(field)}
      {grid && <TableGrid text={text} grid={grid} write={write} />}
      {more.length > 0 && (
        <details>
          <summary>More that it may have</summary>
          <div class="stack">{more.map(field)}</div>
        </details>
      )}
      {leftAlone.length > 0 && <p class="small soft">In the text alone, and left as it is: {leftAlone.join(', ')}.</p>}
      {!isOne && (
        <div class="row">
          {canAdd(file, kind) && (
            <button type="button" onClick={() => change('add', `new ${kind}`)}>
              Add {/^[aeiou]/.test(kind) ? 'an' : 'a'} {kind} below
            </button>
          )}
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

const keyOf = ({ path }: Field) => String(path.at(-1))

function Name({ name, rename }: { readonly name: string; readonly rename: (name: string) => void }) {
  const [typed, setTyped] = useState(name)
  const isRight = /^[A-Za-z][A-Za-z0-9]*$/.test(typed)
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
        onBlur={() => (isRight && typed !== name ? rename(typed) : setTyped(name))}
      />
      <span id="form-name-about" class="small soft">
        Letters and digits, as other places call it; these are not changed with it.
      </span>
    </div>
  )
}
