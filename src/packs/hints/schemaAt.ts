/** The JSON Schema of a pack's file at a place in it, narrowed by what stands there already. */

import { jsonSchema } from '../schema.ts'
import type { Path } from '../source.ts'

export interface JsonSchema {
  readonly $ref?: string
  readonly $defs?: Readonly<Record<string, JsonSchema>>
  readonly type?: string
  readonly description?: string
  readonly default?: unknown
  readonly const?: unknown
  readonly enum?: readonly unknown[]
  readonly pattern?: string
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
  readonly additionalProperties?: JsonSchema | boolean
  readonly items?: JsonSchema
  readonly prefixItems?: readonly JsonSchema[]
  readonly anyOf?: readonly JsonSchema[]
  readonly oneOf?: readonly JsonSchema[]
}

let made: Readonly<Record<string, JsonSchema>> | undefined

/** Undefined for a file that no pack has. */
export function schemaOf(file: string): JsonSchema | undefined {
  made ??= jsonSchema() as Readonly<Record<string, JsonSchema>>
  return file.startsWith('inputs/') ? made['inputs/*.yaml'] : Object.hasOwn(made, file) ? made[file] : undefined
}

/** Every shape that what stands at `path` may have; a description goes with what it describes. */
export function schemasAt(root: JsonSchema, path: Path, data: unknown): readonly JsonSchema[] {
  let schemas = optionsOf(root, root)
  let here = data
  for (const segment of path) {
    schemas = fitting(root, schemas, here).flatMap((schema) => {
      const inner = innerOf(schema, segment)
      return inner ? optionsOf(root, inner) : []
    })
    here = here instanceof Object ? (here as Readonly<Record<string, unknown>>)[segment] : undefined
  }
  return fitting(root, schemas, here)
}

function innerOf(schema: JsonSchema, segment: string | number): JsonSchema | undefined {
  if (typeof segment === 'number') return schema.prefixItems?.[segment] ?? schema.items
  const { properties = {}, additionalProperties } = schema
  if (Object.hasOwn(properties, segment)) return properties[segment]
  return typeof additionalProperties === 'object' ? additionalProperties : undefined
}

/** Unions unfolded and references followed; a schema's own description goes before that of what it refers to. */
export function optionsOf(root: JsonSchema, schema: JsonSchema, inherited?: string): readonly JsonSchema[] {
  const description = inherited ?? schema.description
  if (schema.$ref !== undefined) {
    const referred = root.$defs?.[schema.$ref.replace('#/$defs/', '')]
    return referred ? optionsOf(root, referred, description) : []
  }
  const union = schema.anyOf ?? schema.oneOf
  if (union) return union.flatMap((option) => optionsOf(root, option, option.description ?? description))
  return [description === undefined ? schema : { ...schema, description }]
}

/** Of several sets of names those that have most of the names that stand here; of what is told apart by a word, that one. */
function fitting(root: JsonSchema, schemas: readonly JsonSchema[], data: unknown): readonly JsonSchema[] {
  if (!(data instanceof Object) || Array.isArray(data) || schemas.length < 2) return schemas
  const there = Object.entries(data).filter(([, value]) => value !== undefined)
  const scored = schemas.map((schema) => ({ schema, score: scoreOf(root, schema, there) }))
  const best = Math.max(...scored.map(({ score }) => score))
  return scored.filter(({ score }) => score === best).map(({ schema }) => schema)
}

function scoreOf(root: JsonSchema, schema: JsonSchema, there: readonly (readonly [string, unknown])[]): number {
  const { properties = {} } = schema
  return there.reduce((score, [key, value]) => {
    const property = Object.hasOwn(properties, key) ? properties[key] : undefined
    if (!property) return score
    const fixed = optionsOf(root, property).flatMap<unknown>((one) => (one.const === undefined ? [] : [one.const]))
    return score + (fixed.length === 0 ? 1 : fixed.includes(value) ? MUCH : -MUCH)
  }, 0)
}

/** More than any number of names. */
const MUCH = 1_000
