/** One field of a form, made from what the schema says of it. */

import { useId, useState } from 'preact/hooks'
import {
  type Demands,
  demandsText,
  demandsTyped,
  type Field,
  type FieldValue,
  numberTyped,
} from '../../../../app/view/packForms.ts'

export interface FormFieldProps {
  readonly field: Field
  /** Undefined takes it out of the text. */
  readonly write: (field: Field, value: FieldValue | undefined) => void
  readonly writeGroup: (field: Field, isWanted: boolean) => void
}

export function FormField(props: FormFieldProps) {
  const { field } = props
  if (field.shape === 'group') return <Group {...props} />
  if (field.shape === 'flag') return <Flag {...props} />
  return <Typed {...props} />
}

function Typed({ field, write }: FormFieldProps) {
  const id = useId()
  const { label, help, isNeeded, shape, choices } = field
  // What was typed stays as typed while it means what the text says ("5." on the way to "5.2").
  const [typed, setTyped] = useState<string>()
  const read = typed === undefined ? undefined : typedValue(field, typed)
  const isStrange = typed !== undefined && typed.trim() !== '' && read === undefined
  const shown = typed !== undefined && (isStrange || isSame(field, read)) ? typed : textOf(field, field.value)
  const wrong = isStrange ? [STRANGE[shape] ?? 'should be a number'] : field.problems.map(({ message }) => message)
  const type = (text: string) => {
    setTyped(text)
    const value = typedValue(field, text)
    if (value === undefined && text.trim() !== '') return
    // What must be there stays, and is told to be empty.
    write(field, value ?? (isNeeded && shape === 'text' ? '' : undefined))
  }
  const common = {
    ...{ id, value: shown, 'aria-invalid': wrong.length > 0, 'aria-describedby': `${id}-about` },
    onInput: (event: { readonly currentTarget: { readonly value: string } }) => type(event.currentTarget.value),
  }
  return (
    <div class="field">
      <label for={id} class="cap">
        {label} {!isNeeded && <span class="soft">(optional)</span>}
      </label>
      {shape === 'choice' ? (
        <select {...common}>
          {(!isNeeded || !field.isThere) && <option value="" />}
          {[...new Set([...choices, ...(shown === '' ? [] : [shown])])].map((choice) => (
            <option key={choice} value={choice}>
              {field.about[choice] ? `${choice}: ${field.about[choice]}` : choice}
            </option>
          ))}
        </select>
      ) : HOW[shape] ? (
        <textarea {...common} rows={Math.max(2, shown.split('\n').length)} spellcheck={false} />
      ) : (
        <input
          {...common}
          list={choices.length > 0 ? `${id}-names` : undefined}
          inputMode={shape === 'number' ? 'decimal' : 'text'}
          autocomplete="off"
          spellcheck={false}
        />
      )}
      {shape !== 'choice' && choices.length > 0 && (
        <datalist id={`${id}-names`}>
          {choices.map((choice) => (
            <option key={choice} value={choice} />
          ))}
        </datalist>
      )}
      <About id={`${id}-about`} help={`${help || (HOW[shape] ? 'Several' : '')}${HOW[shape] ?? ''}`} wrong={wrong} />
    </div>
  )
}

const STRANGE: Readonly<Partial<Record<Field['shape'], string>>> = {
  pairs: 'should be a name, a colon and a value',
  condition: 'should be a situation or figure, a colon and a value, or a size: oat: below 5',
}

/** How more than one is typed. */
const HOW: Readonly<Partial<Record<Field['shape'], string>>> = {
  texts: '; one a line',
  rows: '; one a line here, each with its synonyms behind commas',
  pairs: '; one a line, its name first: weight: takeoffWeight',
  condition: '; one a line',
}

function Flag({ field, write }: FormFieldProps) {
  const id = useId()
  const wrong = field.problems.map(({ message }) => message)
  return (
    <div class="field">
      <label class="flag">
        <input
          type="checkbox"
          checked={field.value === undefined ? field.isOn : field.value === true}
          aria-describedby={`${id}-about`}
          onChange={({ currentTarget: { checked } }) => write(field, checked === field.isOn ? undefined : checked)}
        />
        {field.label}
      </label>
      <About id={`${id}-about`} help={field.help} wrong={wrong} />
    </div>
  )
}

function Group({ field, write, writeGroup }: FormFieldProps) {
  const id = useId()
  const { label, help, isThere, isNeeded, fields } = field
  const told = new Set(fields.flatMap((one) => one.problems))
  const wrong = field.problems.filter((one) => !told.has(one)).map(({ message }) => message)
  return (
    <fieldset class="form-group" aria-describedby={`${id}-about`}>
      <legend>
        {isNeeded && isThere ? (
          label
        ) : (
          <label class="flag">
            <input
              type="checkbox"
              checked={isThere}
              onChange={({ currentTarget: { checked } }) => writeGroup(field, checked)}
            />
            {label}
          </label>
        )}
      </legend>
      <About id={`${id}-about`} help={help} wrong={wrong} />
      {isThere &&
        fields.map((one) => <FormField key={one.path.join('.')} field={one} write={write} writeGroup={writeGroup} />)}
    </fieldset>
  )
}

function About({ id, help, wrong }: { readonly id: string; readonly help: string; readonly wrong: readonly string[] }) {
  return (
    <div id={id} class="small">
      {wrong.map((message) => (
        <p key={message} class="wrong-entry">
          {message}
        </p>
      ))}
      {wrong.length === 0 && help !== '' && <span class="soft">{help}</span>}
    </div>
  )
}

function textOf({ shape }: Field, value: FieldValue | undefined): string {
  if (value === undefined || value === null) return ''
  if (shape === 'condition') return demandsText(value as Demands)
  if (Array.isArray(value)) return value.map((one) => [one].flat().join(', ')).join('\n')
  if (typeof value !== 'object') return String(value)
  return Object.entries(value)
    .map(([name, one]) => `${name}: ${one}`)
    .join('\n')
}

/** Where a text may stand as well, a comma is one of its signs. */
const NUMBER = /^[-+]?(\d+\.?\d*|\.\d+)$/

/** Undefined for nothing, and for what is no value of the field. */
function typedValue({ shape, value: before }: Field, typed: string): FieldValue | undefined {
  const text = typed.trim()
  if (text === '') return undefined
  if (shape === 'number') return numberTyped(text)
  // A code of figures stays a text where it was one: "0420" is not 420.
  if (shape === 'either')
    return NUMBER.test(text) && typeof before !== 'string' && !/^0\d/.test(text) ? Number(text) : text
  if (!HOW[shape]) return text
  const lines = trimmed(text.split('\n'))
  if (shape === 'pairs') return pairsTyped(lines)
  if (shape === 'condition') return demandsTyped(lines)
  if (shape === 'rows') return lines.map((line) => trimmed(line.split(',')))
  return lines.map((line) => (isOfNumbers(before) && NUMBER.test(line) ? Number(line) : line))
}

/** Undefined where a line is no pair, yet. */
function pairsTyped(lines: readonly string[]): FieldValue | undefined {
  const pairs = lines.map((line) => /^([\w-]+)\s*:\s*(\S.*)$/.exec(line))
  if (pairs.some((pair) => pair === null)) return undefined
  return Object.fromEntries(
    pairs.map((pair) => [pair?.[1], NUMBER.test(pair?.[2] ?? '') ? Number(pair?.[2]) : pair?.[2]]),
  )
}

const trimmed = (all: readonly string[]) => all.map((one) => one.trim()).filter((one) => one !== '')

function isOfNumbers(value: FieldValue | undefined): boolean {
  return Array.isArray(value) && value.some((one) => typeof one === 'number')
}

function isSame(field: Field, read: FieldValue | undefined): boolean {
  return textOf(field, read) === textOf(field, field.value)
}
