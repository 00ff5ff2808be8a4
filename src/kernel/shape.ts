/**
 * Shapes for data that comes from outside and is not a person's writing: stored logs above all. A `Shape` says
 * what is wrong with a value and where in it, and is typed by what it vouches for, so that a shape written for a
 * type and the type cannot part. Objects may hold more than their shape names: a later edition may have added it.
 */

/**
 * The answer goes on behind the value's name: " is missing", ".by is not text"; undefined where nothing is wrong. `schema`
 * says the same for others, as JSON Schema (draft 2020-12).
 */
export type Shape<T> = ((value: unknown) => string | undefined) & { readonly of?: T; readonly schema: JsonSchema }
export type Optional<T> = Shape<T | undefined> & { readonly isOptional: true }
export type JsonSchema = Readonly<Record<string, unknown>>

const shaped = <T>(schema: JsonSchema, check: (value: unknown) => string | undefined): Shape<T> =>
  Object.assign((value: unknown) => check(value), { schema })

/** One shape for each field; an optional field has an optional one. */
export type Fields<T> = {
  readonly [K in keyof T]-?: Record<never, never> extends Pick<T, K> ? Optional<T[K]> : Shape<T[K]>
}

const MOST_LETTERS = 40

/** A value of unknown origin for a message: on one line and never long. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.slice(0, MOST_LETTERS))
  return typeof value === 'object' && value !== null ? (Array.isArray(value) ? 'a list' : 'an object') : String(value)
}

const isNot = (value: unknown, what: string) =>
  value === undefined ? ' is missing' : ` is ${shown(value)}, not ${what}`

export const text: Shape<string> = shaped({ type: 'string' }, (value) =>
  typeof value === 'string' ? undefined : isNot(value, 'text'),
)

export const number: Shape<number> = shaped({ type: 'number' }, (value) =>
  typeof value === 'number' && Number.isFinite(value) ? undefined : isNot(value, 'a number'),
)

export const flag: Shape<boolean> = shaped({ type: 'boolean' }, (value) =>
  typeof value === 'boolean' ? undefined : isNot(value, 'true or false'),
)

/** A number or text, as figures' values are. */
export const value: Shape<number | string> = shaped({ type: ['number', 'string'] }, (value) =>
  typeof value === 'string' ? undefined : typeof value === 'number' ? number(value) : isNot(value, 'a number or text'),
)

export function oneOf<T extends string>(names: readonly T[]): Shape<T> {
  return shaped({ enum: names }, (value) =>
    (names as readonly unknown[]).includes(value) ? undefined : isNot(value, names.join(', ')),
  )
}

export function oneNumberOf<T extends number>(numbers: readonly T[]): Shape<T> {
  return shaped({ enum: numbers }, (value) =>
    (numbers as readonly unknown[]).includes(value) ? undefined : isNot(value, numbers.join(', ')),
  )
}

/** Names of a union that has no list: the record holds each of them once. */
export function nameIn<T extends string>(names: Readonly<Record<T, true>>): Shape<T> {
  return oneOf(Object.keys(names) as T[])
}

export function optional<T>(shape: Shape<T>): Optional<T> {
  const check = shaped<T | undefined>(shape.schema, (value) => (value === undefined ? undefined : shape(value)))
  return Object.assign(check, { isOptional: true as const })
}

export function listOf<T>(shape: Shape<T>): Shape<readonly T[]> {
  return shaped({ type: 'array', items: shape.schema }, (value) =>
    Array.isArray(value) ? firstWrong(value.entries(), () => shape) : isNot(value, 'a list'),
  )
}

/** A name with nothing under it is as good as left out: databases keep it, files do not. */
export function recordOf<T>(shape: Shape<T>): Shape<Readonly<Record<string, T>>> {
  return shaped({ type: 'object', additionalProperties: shape.schema }, (value) =>
    isObject(value) ? firstWrong(Object.entries(value), () => optional(shape)) : isNot(value, 'an object'),
  )
}

export function object<T extends object>(fields: Fields<T>): Shape<T> {
  const shapes = Object.entries<Shape<unknown>>(fields)
  return shaped(objectSchema(fields), (value) => {
    if (!isObject(value)) return isNot(value, 'an object')
    return firstWrong(
      shapes.map(([name]) => [name, value[name]] as const),
      (name) => fields[name as keyof T],
    )
  })
}

/** Of an object with these fields, and maybe others. */
export function objectSchema<T extends object>(fields: Fields<T>): JsonSchema {
  const shapes = Object.entries<Shape<unknown>>(fields)
  return {
    type: 'object',
    properties: Object.fromEntries(shapes.map(([name, { schema }]) => [name, schema])),
    required: shapes.flatMap(([name, shape]) => ('isOptional' in shape ? [] : [name])),
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function firstWrong<Name extends string | number>(
  entries: Iterable<readonly [Name, unknown]>,
  shapeOf: (name: Name) => Shape<unknown>,
): string | undefined {
  for (const [name, value] of entries) {
    const wrong = shapeOf(name)(value)
    if (wrong !== undefined) return `.${String(name).slice(0, MOST_LETTERS)}${wrong}`
  }
  return undefined
}
