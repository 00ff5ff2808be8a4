/** The JSON Schema of a log, for whoever reads logs with other tools: made of the shapes by which logs are read here. */

import { type JsonSchema, objectSchema } from '../../shape.ts'
import { EVENT_FIELDS, STAMP } from './eventShapes.ts'
import { NOTICE } from './events.ts'
import { LOG_VERSION } from './readLog.ts'

/** Of one line of the JSON Lines: one event. */
export function logSchema(): JsonSchema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'An event in the log of a run of Otherseat',
    description: `One line of a log in JSON Lines. The lines are numbered by seq from 0, the first is runStarted, and later editions may add properties. ${NOTICE}.`,
    oneOf: Object.entries(EVENT_FIELDS).map(([type, fields]) => eventSchema(type, fields)),
  }
}

function eventSchema(type: string, fields: Parameters<typeof objectSchema>[0]): JsonSchema {
  const { properties, required } = objectSchema({ ...STAMP, ...fields }) as {
    readonly properties: JsonSchema
    readonly required: readonly string[]
  }
  return {
    type: 'object',
    properties: { v: { const: LOG_VERSION }, type: { const: type }, ...properties },
    required: ['v', 'type', ...required],
  }
}
