/** One line of `judge`'s input -> what the kernel judges, or what is wrong with the line. Checked by hand: it is on the way of every verdict. */

import { type ComposedSpec, composedShould } from '../kernel/kinds/composed.ts'
import { type Figure, PHRASEOLOGIES, type Value } from '../kernel/kinds/kind.ts'
import type { Alternative, JudgeInput } from '../kernel/response/model.ts'
import { parseResponse, type Response } from '../kernel/response/response.ts'

type Id = string | number | null | undefined
export type JudgeLine = { readonly id: Id; readonly input: JudgeInput } | { readonly id: Id; readonly error: string }

type Fields = Readonly<Record<string, unknown>>

class LineError extends Error {}

function refuse(message: string): never {
  throw new LineError(message)
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** Reads one line. */
export function readJudgeLine(line: string): JudgeLine {
  let id: Id
  try {
    const fields: unknown = JSON.parse(line)
    if (!isFields(fields)) return { id: null, error: 'not a JSON object; one object a line' }
    const { id: given } = fields
    id = typeof given === 'string' || typeof given === 'number' ? given : given === undefined ? undefined : null
    return { id, input: inputOf(fields) }
  } catch (error) {
    if (error instanceof LineError) return { id: id ?? null, error: error.message }
    if (error instanceof SyntaxError) return { id: id ?? null, error: `not JSON: ${error.message}` }
    throw error
  }
}

function inputOf(fields: Fields): JudgeInput {
  const notation = text(fields, 'response')
  const heard = text(fields, 'heard')
  const figures = figuresIn(fields.figures)
  const response = responseWith(notation, figures)
  const { challenge, phraseology, score } = fields
  if (challenge !== undefined && challenge !== null && typeof challenge !== 'string') refuse('"challenge" must be text')
  const known = PHRASEOLOGIES.find((each) => each === phraseology)
  if (phraseology !== undefined && phraseology !== null && !known) {
    refuse(`"phraseology" must be one of ${PHRASEOLOGIES.join(', ')}`)
  }
  return {
    response,
    heard,
    figures,
    ...(typeof challenge === 'string' ? { challenge } : {}),
    ...(known ? { phraseology: known } : {}),
    ...(given(score) ? { score: number(score, 'score') } : {}),
    ...(given(fields.states) ? { states: listOf(fields.states, 'states', words) } : {}),
    ...(given(fields.alternatives) ? { alternatives: listOf(fields.alternatives, 'alternatives', alternative) } : {}),
    ...(given(fields.held) ? { held: words(fields.held, 'held') } : {}),
    ...(given(fields.begun) ? { begun: textsIn(fields.begun, 'begun') } : {}),
    ...(given(fields.yesNo) ? { yesNo: fields.yesNo === true } : {}),
    ...(given(fields.lists) ? { lists: namesIn(fields.lists, 'lists') } : {}),
    ...(given(fields.confirmable) ? { confirmable: namesIn(fields.confirmable, 'confirmable') } : {}),
    ...(isFields(fields.implausibleBefore)
      ? { implausibleBefore: fields.implausibleBefore as Readonly<Record<string, Value>> }
      : {}),
  }
}

const given = (value: unknown) => value !== undefined && value !== null

function text(fields: Fields, name: string): string {
  const value = fields[name]
  if (typeof value !== 'string') refuse(`"${name}" must be text`)
  return value
}

function number(value: unknown, name: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value)) refuse(`"${name}" must be a finite number`)
  return value
}

function listOf<T>(value: unknown, name: string, read: (each: unknown, name: string) => T): T[] {
  if (!Array.isArray(value)) refuse(`"${name}" must be a list`)
  return value.map((each) => read(each, name))
}

function words(value: unknown, name: string): string[] {
  return listOf(value, name, (each) => (typeof each === 'string' ? each : refuse(`"${name}" must hold texts`)))
}

function alternative(value: unknown): Alternative {
  if (typeof value === 'string') return { text: value }
  if (!isFields(value) || typeof value.text !== 'string') refuse('an alternative must be {"text": ..., "score": ...}')
  return given(value.score) ? { text: value.text, score: number(value.score, 'score') } : { text: value.text }
}

function textsIn(value: unknown, name: string): Record<string, string> {
  if (!isFields(value)) refuse(`"${name}" must be an object of texts`)
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [
      key,
      typeof each === 'string' ? each : refuse(`"${name}" must hold texts`),
    ]),
  )
}

function namesIn(value: unknown, name: string): Record<string, string[]> {
  if (!isFields(value)) refuse(`"${name}" must be an object of names`)
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, words(each, name)]))
}

/** Responses parsed once, not at every line. */
const parsed = new Map<string, Response>()
/** A stream of lines has few; of a stream where each has its own, not all are kept. */
const MOST_KEPT = 500

function parsedOnce(text: string): Response {
  const known = parsed.get(text)
  if (known) return known
  const result = parseResponse(text)
  if ('problems' in result) {
    refuse(`"response" at ${result.problems.map(({ message, offset }) => `${offset + 1}: ${message}`).join('; ')}`)
  }
  if (parsed.size >= MOST_KEPT) parsed.clear()
  parsed.set(text, result.response)
  return result.response
}

function responseWith(text: string, figures: Readonly<Record<string, Figure>>): Response {
  const response = parsedOnce(text)
  const missing = response.figures.find((name) => !Object.hasOwn(figures, name))
  if (missing !== undefined) refuse(`"response" uses <${missing}>, which is not among "figures"`)
  return response
}

function figuresIn(value: unknown): Record<string, Figure> {
  if (!given(value)) return {}
  if (!isFields(value)) refuse('"figures" must be an object of figures')
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, figure(name, each)]))
}

function figure(name: string, value: unknown): Figure {
  if (!isFields(value)) refuse(`figure "${name}" must be an object with kind and value`)
  for (const field of ['min', 'max', 'step']) {
    if (given(value[field])) number(value[field], `${field} of ${name}`)
  }
  if (given(value.accept)) checkAccept(name, value.accept)
  const fail = (wanted: string): never => refuse(`figure "${name}" (${String(value.kind)}) needs ${wanted}`)
  const amount = () => {
    if (typeof value.value !== 'number' || !Number.isFinite(value.value)) fail('a finite number as "value"')
  }
  const string = (pattern: RegExp, wanted: string) => {
    if (typeof value.value !== 'string' || !pattern.test(value.value)) fail(wanted)
  }
  const oneOf = (field: string, values: readonly unknown[]) => {
    if (!values.includes(value[field] ?? undefined)) {
      fail(`"${field}" to be one of ${values.filter((each) => each !== undefined).join(', ')}`)
    }
  }
  switch (value.kind) {
    case 'decimal':
    case 'trim':
      amount()
      if (!Number.isInteger(value.decimals) || Number(value.decimals) < 0 || Number(value.decimals) > 6) {
        fail('"decimals", a whole number from 0 to 6')
      }
      if (value.kind === 'trim') oneOf('axis', [undefined, 'pitch', 'roll', 'yaw'])
      break
    case 'integer':
    case 'speed':
    case 'altitude':
    case 'flightLevel':
    case 'frequency':
      amount()
      break
    case 'heading':
      amount()
      if (!Number.isInteger(value.value) || Number(value.value) < 1 || Number(value.value) > 360) {
        fail('a whole number from 1 to 360 as "value"')
      }
      break
    case 'weight':
      amount()
      oneOf('unit', ['kg', 'lb'])
      break
    case 'temperature':
      amount()
      oneOf('unit', ['C', 'F'])
      break
    case 'altimeter':
      amount()
      oneOf('unit', ['hPa', 'inHg'])
      break
    case 'digits':
      string(/^\d+$/, 'digits as text in "value"')
      if (!Number.isInteger(value.length)) fail('"length", a whole number')
      break
    case 'time':
      string(/^([01]\d|2[0-3])[0-5]\d$/, 'four digits, hours and minutes, as text in "value"')
      break
    case 'runway':
      string(/^(0?[1-9]|[12]\d|3[0-6])[LRClrc]?$/, 'a runway such as "27L" in "value"')
      break
    case 'identifier':
      oneOf('form', [undefined, 'letter'])
      if (value.form === 'letter') string(/^[A-Za-z]$/, 'one letter in "value"')
      else string(/^[A-Za-z0-9]+$/, 'letters and digits in "value"')
      break
    case 'callsign':
      if (given(value.telephony)) words(value.telephony, 'telephony')
      checkComposed(value, fail)
      break
    case 'wind':
    case 'route':
      checkComposed(value, fail)
      break
    case 'choice':
      checkChoice(value, fail)
      break
    default:
      refuse(`figure "${name}" has no known kind: ${String(value.kind)}`)
  }
  return withoutNulls(value) as unknown as Figure
}

/** Values of several pieces have their own shapes. */
function checkComposed(value: Fields, fail: (wanted: string) => never): void {
  if (typeof value.value !== 'string') fail('text in "value"')
  const should = composedShould(withoutNulls(value) as unknown as ComposedSpec, String(value.value))
  if (should !== undefined) fail(`in "value" ${should}`)
}

/** An optional field that is null was not given. */
function withoutNulls(value: Fields): Fields {
  return Object.values(value).includes(null)
    ? Object.fromEntries(Object.entries(value).filter(([, each]) => each !== null))
    : value
}

function checkAccept(name: string, accept: unknown): void {
  if (!isFields(accept)) refuse(`"accept" of ${name} must be {"min", "max"} or {"tolerance"}`)
  for (const field of ['min', 'max', 'tolerance']) {
    if (given(accept[field])) number(accept[field], `accept.${field} of ${name}`)
  }
}

function checkChoice(value: Fields, fail: (wanted: string) => never): void {
  if (!isFields(value.options)) fail('"options", each with the ways to say it')
  for (const forms of Object.values(value.options as Fields)) words(forms, 'options')
  if (typeof value.value !== 'string' || !Object.hasOwn(value.options as Fields, value.value)) {
    fail('one of its options as "value"')
  }
}
