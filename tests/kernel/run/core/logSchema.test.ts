/** The published schema and the reader of logs say the same. */

import { beforeAll, expect, test } from 'vitest'
import { z } from 'zod'
import { EVENT_FIELDS } from '../../../../src/kernel/run/core/eventShapes.ts'
import type { RunEvent } from '../../../../src/kernel/run/core/events.ts'
import { logSchema } from '../../../../src/kernel/run/core/logSchema.ts'
import { readEvents } from '../../../../src/kernel/run/core/readLog.ts'
import { flownRun } from '../../../app/runs/flownRuns.ts'

const schema = z.fromJSONSchema(logSchema() as Parameters<typeof z.fromJSONSchema>[0])
let events: readonly RunEvent[]
beforeAll(async () => {
  events = await flownRun()
})

test('has every type of event', () => {
  const { oneOf } = logSchema() as unknown as { oneOf: { properties: { type: { const: string } } }[] }
  expect(oneOf.map(({ properties }) => properties.type.const)).toEqual(Object.keys(EVENT_FIELDS))
})

test('takes the events of a run', () => {
  expect(events.length).toBeGreaterThan(5)
  for (const event of events) expect(schema.safeParse(JSON.parse(JSON.stringify(event))).success).toBe(true)
})

test('refuses an event without any one of its fields where the reader does', () => {
  for (const [at, event] of events.entries()) {
    for (const name of Object.keys(event)) {
      const { [name as keyof RunEvent]: _, ...rest } = event
      const isRead = readEvents([...events.slice(0, at), rest]).events.length > at
      expect({ name, type: event.type, isTaken: schema.safeParse(rest).success }).toEqual({
        ...{ name, type: event.type },
        isTaken: isRead,
      })
    }
  }
})
