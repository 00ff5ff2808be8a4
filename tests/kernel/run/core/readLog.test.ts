/** A log as it may come back from a file or a database: whole, cut, of another edition, or tampered with. */

import { describe, expect, it } from 'vitest'
import { readPackDir } from '../../../../src/cli/packDir.ts'
import { EVENT_FIELDS } from '../../../../src/kernel/run/core/eventShapes.ts'
import type { RunEvent } from '../../../../src/kernel/run/core/events.ts'
import { readEvents, readLogText, replay } from '../../../../src/kernel/run/core/readLog.ts'
import { rehearsed } from '../../../rehearsed.ts'

const { pack } = await readPackDir('checklists/marram')
if (!pack) throw new Error('the pack cannot be read')
const marram = pack

const flown = (file: string, sheet: string, voices?: number): Promise<RunEvent[]> =>
  rehearsed({ pack: marram, file, sheet, ...(voices !== undefined && { voices }) })

const DEPARTURE = await flown('tests/cli/answers/departure.txt', 'checklists/marram/inputs/preliminary.yaml')
const TALK = await flown('tests/cli/answers/talk.txt', 'tests/cli/answers/talk.yaml', 7)

const lines = (events: readonly unknown[]) => events.map((event) => `${JSON.stringify(event)}\n`).join('')
const at = (type: RunEvent['type']) => DEPARTURE.findIndex((event) => event.type === type)
/** The departure with the first event of a type changed. */
const changed = (type: RunEvent['type'], change: object): unknown[] =>
  DEPARTURE.map((event, index) => (index === at(type) ? { ...event, ...change } : event))

describe('a log as it was written', () => {
  it.each([
    ['without voices outside the crew', DEPARTURE],
    ['with them', TALK],
  ])('is read whole, %s', (_, events) => {
    expect(events.length).toBeGreaterThan(50)
    expect(readEvents(events)).toEqual({ events, isCut: false })
    expect(readLogText(lines(events))).toEqual({ events, isCut: false })
    expect(readLogText(`\uFEFF${lines(events).replaceAll('\n', '\r\n\n')}`)).toEqual({ events, isCut: false })
  })

  it('is replayed to the end of the run', () => {
    const { state, events, problem } = replay(marram, DEPARTURE)
    expect(problem).toBeUndefined()
    expect(events).toHaveLength(DEPARTURE.length)
    expect(state.status).toBe('ended')
  })

  it('by an edition that told the time of an interlock by its listening turn is read as well', () => {
    const old = { ...DEPARTURE[2], type: 'timeUp', order: 4 }
    expect(readEvents([...DEPARTURE.slice(0, 2), old]).problem).toBeUndefined()
  })

  it('may hold more than this edition knows', () => {
    expect(readEvents(changed('answered', { later: { than: 'this edition' } })).problem).toBeUndefined()
  })

  it('may hold names with nothing under them, as a database keeps them', () => {
    expect(readEvents(changed('answered', { expected: { v1: undefined } })).problem).toBeUndefined()
  })
})

describe('a log that was cut', () => {
  it('in the middle of its last line is read to the line before, and says so', () => {
    const text = lines(DEPARTURE)
    expect(readLogText(text.slice(0, -20))).toEqual({ events: DEPARTURE.slice(0, -1), isCut: true })
  })

  it('behind a whole line is just shorter', () => {
    expect(readLogText(lines(DEPARTURE).trimEnd())).toEqual({ events: DEPARTURE, isCut: false })
  })

  it('before its first line has ended holds nothing', () => {
    expect(readLogText('{"v":1,"seq":0,"ty')).toEqual({ events: [], isCut: true })
  })

  it('in its middle is read to there', () => {
    const text = [
      ...lines(DEPARTURE.slice(0, 3)).trimEnd().split('\n'),
      '{"v":1',
      ...lines(DEPARTURE.slice(4)).split('\n'),
    ]
    expect(readLogText(text.join('\n'))).toEqual({
      events: DEPARTURE.slice(0, 3),
      problem: { line: 4, message: 'not JSON; one event a line would be right' },
      isCut: false,
    })
  })
})

describe('an event that is wrong is named with its line, and the log read up to it', () => {
  const long = 'x'.repeat(30_000)
  const cases: readonly (readonly [what: string, events: readonly unknown[], line: number, message: string])[] = [
    [
      'of a later edition',
      changed('answered', { v: 99 }),
      at('answered') + 1,
      'it has version 99, and this edition reads version 1: a later edition wrote it',
    ],
    ['without a version', changed('answered', { v: undefined }), at('answered') + 1, 'v is missing; 1 would be right'],
    ['of no version', changed('answered', { v: '1' }), at('answered') + 1, 'v is "1"; 1 would be right'],
    [
      'of an unknown type',
      changed('answered', { type: 'teleported' }),
      at('answered') + 1,
      '"teleported" is not a type of event that this edition knows',
    ],
    [
      'of a type that every object has',
      changed('answered', { type: 'constructor' }),
      at('answered') + 1,
      '"constructor" is not a type of event',
    ],
    [
      'with a type of 30 kB',
      changed('answered', { type: long }),
      at('answered') + 1,
      `"${'x'.repeat(40)}" is not a type`,
    ],
    ['without a type', changed('answered', { type: undefined }), at('answered') + 1, 'type is missing'],
    [
      'without a field',
      changed('answered', { judgement: undefined }),
      at('answered') + 1,
      'answered.judgement is missing',
    ],
    [
      'with a field of another type',
      changed('answered', { revision: '1' }),
      at('answered') + 1,
      'answered.revision is "1", not a number',
    ],
    [
      'with a field that lacks something',
      changed('answered', { evidence: { by: 'voice' } }),
      at('answered') + 1,
      'answered.evidence.text is missing',
    ],
    [
      'with a word that nobody knows',
      changed('answered', { judgement: { verdict: 'maybe', parts: [] } }),
      at('answered') + 1,
      'answered.judgement.verdict is "maybe", not correct, negative',
    ],
    [
      'with a list that is none',
      changed('figuresRevised', { changes: {} }),
      at('figuresRevised') + 1,
      'figuresRevised.changes is an object, not a list',
    ],
    [
      'with something wrong deep in it',
      changed('figuresRevised', { changes: [{ figure: 'v1', label: 'V one' }] }),
      at('figuresRevised') + 1,
      'figuresRevised.changes.0.spoken is missing',
    ],
    ['with a time that is no number', changed('answered', { t: null }), at('answered') + 1, 't is null, not a number'],
    [
      'with a time that is none',
      changed('answered', { wall: 'noon' }),
      at('answered') + 1,
      'wall is "noon", not a time',
    ],
    ['of another run', changed('answered', { runId: 'other' }), at('answered') + 1, 'it is of another run, "other"'],
    ['after a gap', DEPARTURE.toSpliced(3, 1), 4, 'its number is 4; 3 would be right here'],
    ['stored twice', DEPARTURE.toSpliced(3, 0, ...DEPARTURE.slice(2, 3)), 4, 'its number is 2; 3 would be right here'],
    [
      'that begins the run again',
      changed('answered', { ...DEPARTURE[0], seq: at('answered') }),
      at('answered') + 1,
      'the run has begun already',
    ],
    [
      'behind the end of the run',
      [...DEPARTURE, { ...DEPARTURE[3], seq: DEPARTURE.length }],
      DEPARTURE.length + 1,
      'the run has ended before it',
    ],
    ['that is none', ['hello', ...DEPARTURE], 1, '"hello" is no event'],
    ['in a list', [DEPARTURE], 1, 'a list is no event'],
  ]
  it.each(cases)('%s', (_, events, line, message) => {
    for (const read of [readEvents(events), readLogText(lines(events))]) {
      expect(read.problem).toMatchObject({ line, message: expect.stringContaining(message) })
      expect(read.problem?.message.length).toBeLessThan(300)
      expect(read.events).toEqual(DEPARTURE.slice(0, line - 1))
    }
  })

  it('that does not begin a run where one must begin', () => {
    const [, second] = DEPARTURE
    expect(readEvents([{ ...second, seq: 0 }]).problem?.message).toBe(
      'event 0: a log begins with runStarted, not with figuresRevised',
    )
  })
})

it('an event that names what the pack does not have ends the replay there, and says which', () => {
  const events = readEvents(
    changed('answered', { item: 'loadFigures.nope', judgement: { verdict: 'sayAgain', parts: [] } }),
  ).events
  const asked = events.findIndex((event) => event.type === 'answered')
  const tampered: RunEvent[] = [
    ...events.slice(0, asked),
    { ...events[asked], type: 'voided', item: 'loadFigures.nope', because: 'onsetCut' } as RunEvent,
  ]
  const { problem, state, events: replayed } = replay(marram, tampered)
  expect(problem).toMatchObject({
    line: asked + 1,
    message: expect.stringMatching(/^event \d+ \(voided\) cannot be replayed: .*nope/),
  })
  expect(replayed).toHaveLength(asked)
  expect(state.seq).toBe(asked - 1)
})

it.each(['loadFigures.nope', '__proto__'])('an answer to an item %s, which the pack does not have, is told', (item) => {
  const asked = DEPARTURE.findIndex((event) => event.type === 'answered')
  const tampered = [...DEPARTURE.slice(0, asked), { ...DEPARTURE[asked], item } as RunEvent]
  expect(replay(marram, tampered).problem).toMatchObject({
    line: asked + 1,
    message: `event ${asked} (answered) cannot be replayed: pack marram has no item ${item}`,
  })
})

it('every field of every event in these logs, taken away or turned into an object, is noticed', () => {
  const tried = new Set<string>()
  for (const event of [...DEPARTURE, ...TALK]) {
    const { type } = event
    if (tried.has(type) || type === 'runStarted') continue
    tried.add(type)
    for (const [name, shape] of Object.entries(EVENT_FIELDS[type])) {
      if ('isOptional' in shape) continue
      for (const wrong of [undefined, () => undefined]) {
        const seen = readEvents([DEPARTURE[0], { ...event, seq: 1, runId: DEPARTURE[0]?.runId, [name]: wrong }])
        expect(seen.problem?.message, `${type}.${name}`).toContain(`${type}.${name}`)
      }
    }
  }
  expect(tried.size).toBeGreaterThan(12)
})
