import { PassThrough, Readable } from 'node:stream'
import { describe, expect, it } from 'vitest'
import { MOST_CHARACTERS, run } from '../../src/cli/judge.ts'
import { runCommand } from './io.ts'

const LINE = {
  id: 'a1',
  challenge: 'takeoff trim',
  response: '<trim> [set]',
  figures: { trim: { kind: 'trim', decimals: 1, value: 5.2 } },
  heard: 'five point two up',
}

async function judged(...lines: readonly unknown[]): Promise<Record<string, unknown>[]> {
  const input = lines.map((line) => (typeof line === 'string' ? line : JSON.stringify(line))).join('\n')
  const { status, output } = await runCommand(run, [], `${input}\n`)
  expect(status).toBe(0)
  return output
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line))
}

describe('judge reads lines and writes verdicts', () => {
  it('as the contract shows', async () => {
    const line = { ...LINE, alternatives: [{ text: 'five point two up set', score: 0.8 }], phraseology: 'plain' }
    expect(await judged(line)).toEqual([
      {
        id: 'a1',
        verdict: 'correct',
        parts: [{ name: 'trim', kind: 'figure', heard: 'five point two up', read: 5.2, expected: 5.2, state: 'ok' }],
      },
    ])
  })

  it('in the order of the input, over lines that are no valid input', async () => {
    const out = await judged(LINE, '{"id": "a2"', { ...LINE, id: 3 }, '[]', { ...LINE, id: 'a5', heard: 5 })
    expect(out.map(({ id, verdict, error }) => [id, verdict, typeof error])).toEqual([
      ['a1', 'correct', 'undefined'],
      [null, undefined, 'string'],
      [3, 'correct', 'undefined'],
      [null, undefined, 'string'],
      ['a5', undefined, 'string'],
    ])
  })

  it('a command with what it is about', async () => {
    expect(await judged({ ...LINE, heard: 'pass, not fitted' })).toMatchObject([
      { verdict: 'command', command: 'pass', argument: 'notFitted' },
    ])
  })

  it('nothing for empty input, and usage for an argument', async () => {
    expect(await judged()).toEqual([])
    expect((await runCommand(run, ['--what'])).status).toBe(2)
  })

  const figure = (value: unknown) => ({ ...LINE, figures: { trim: value } })
  it.each([
    [{ kind: 'callsign', telephony: ['Tidewick'], value: 'HARROW 421' }, 'designators'],
    [{ kind: 'callsign', telephony: 'Tidewick', value: 'TIDEWICK 421' }, 'telephony'],
    [{ kind: 'callsign', value: 421 }, '"value" of figure "trim" should be text'],
    [{ kind: 'wind', value: '24012' }, '240/12'],
    [{ kind: 'route', value: '3A' }, 'A3 B C1'],
    [{ kind: 'identifier', form: 'letter', value: 'A3' }, 'one letter'],
  ])('%o: says what would be right', async (value, part) => {
    const [out] = await judged(figure(value))
    expect(out?.error).toContain(part)
  })

  it.each([
    ['no response', { ...LINE, response: undefined }, 'response'],
    ['a response that does not parse', { ...LINE, response: '(<trim>' }, 'not closed'],
    ['a figure that is not handed in', { ...LINE, figures: {} }, '<trim>'],
    ['an unknown kind', figure({ kind: 'colour', value: 1 }), 'colour'],
    ['a value of the wrong type', figure({ kind: 'trim', decimals: 1, value: '5.2' }), 'finite number'],
    ['no decimals', figure({ kind: 'trim', value: 5.2 }), 'decimals'],
    ['a unit that there is not', figure({ kind: 'altimeter', unit: 'psi', value: 1 }), 'hPa'],
    ['a heading beyond 360', figure({ kind: 'heading', value: 361 }), '360'],
    ['a time that there is not', figure({ kind: 'time', value: '2460' }), 'hours'],
    ['a choice without its option', figure({ kind: 'choice', options: { '1': ['one'] }, value: '5' }), 'positions: 1'],
    ['an option that is no list', figure({ kind: 'choice', options: { '1': 'one' }, value: '1' }), 'list'],
    ['an unknown phraseology', { ...LINE, phraseology: 'fancy' }, 'standard'],
    ['a score that is no number', { ...LINE, score: 'high' }, 'score'],
    ['states that are no lists', { ...LINE, states: ['on'] }, 'states'],
    ['alternatives without text', { ...LINE, alternatives: [{ score: 1 }] }, 'text'],
    ['a limit that is no number', figure({ kind: 'speed', min: 'low', value: 1 }), 'min'],
  ])('a clear error for %s', async (_name, line, word) => {
    const [out] = await judged(line)
    expect(out?.id).toBe('a1')
    expect(out?.error).toContain(word)
  })

  it.each([
    ['a kind that is an object', '{"toString": 1}'],
    ['a kind that is nested deeply', `${'['.repeat(200_000)}${']'.repeat(200_000)}`],
    ['a kind that is called like what every object has', '"constructor"'],
  ])('%s is an error, and the next line is judged', async (_name, kind) => {
    const line = `{"id": "x", "response": "<v>", "figures": {"v": {"kind": ${kind}, "value": 1}}, "heard": "one"}`
    const [bad, good] = await judged(line, LINE)
    expect(bad).toMatchObject({ id: 'x', error: expect.stringContaining('"kind" of figure "v" should be one of') })
    expect(good).toMatchObject({ id: 'a1', verdict: 'correct' })
  })

  it('nesting in a field that is nobody’s is not looked at', async () => {
    const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`
    const extra = JSON.stringify(LINE).replace('"kind"', `"note": ${deep}, "kind"`)
    expect(await judged(extra)).toMatchObject([{ id: 'a1', verdict: 'correct' }])
  })

  it('a figure may be called like what every object has', async () => {
    const { trim } = LINE.figures
    const named = { ...LINE, response: '<constructor> [set]', figures: { constructor: trim } }
    const missing = { ...LINE, response: '<toString>' }
    expect(await judged(named, missing)).toMatchObject([
      { verdict: 'correct' },
      { error: expect.stringContaining('<toString>') },
    ])
  })

  it('a value is taken as it is written, and a field that is null as left out', async () => {
    const runway = { kind: 'runway', value: '27l' }
    const trim = { kind: 'trim', decimals: 1, axis: null, value: 5.2, accept: null }
    const out = await judged(
      { ...LINE, response: '<runway>', figures: { runway }, heard: 'two seven left' },
      { ...LINE, figures: { trim }, states: null },
    )
    expect(out).toMatchObject([{ verdict: 'correct', parts: [{ expected: '27L' }] }, { verdict: 'correct' }])
  })

  it('says which field of which figure is wrong, and what is there', async () => {
    const [out] = await judged(figure({ kind: 'trim', decimals: 9, value: 5.2 }))
    expect(out?.error).toBe('"decimals" of figure "trim" should be at most 6, not 9')
  })

  it('a huge number in JSON is an error and not a value', async () => {
    const [out] = await judged(
      '{"id":"x","response":"<v>","figures":{"v":{"kind":"speed","value":1e999}},"heard":"one"}',
    )
    expect(out?.error).toContain('finite')
  })
})

describe('judge streams', () => {
  const text = (...pieces: readonly string[]) => Readable.from(pieces)
  async function streamed(input: Readable): Promise<Record<string, unknown>[]> {
    const output = new PassThrough()
    let out = ''
    output.on('data', (chunk) => {
      out += chunk
    })
    expect(await run([], { input, output, errors: new PassThrough() })).toBe(0)
    return out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line))
  }
  const line = (id: string) => JSON.stringify({ ...LINE, id })

  it('over a line that is too long, of which nothing is kept', async () => {
    const long = Array.from({ length: 3000 }, () => 'x'.repeat(1000))
    const out = await streamed(text(`${line('a')}\n"`, ...long, `"\n${line('b')}\n`))
    expect(out).toMatchObject([
      { id: 'a', verdict: 'correct' },
      { id: null, error: `the line is longer than ${MOST_CHARACTERS} characters` },
      { id: 'b', verdict: 'correct' },
    ])
  })

  it('lines that end in every usual way, in pieces cut anywhere', async () => {
    const bytes = Buffer.from(`${line('é')}\r\n\n${line('ü')}\n${line('\u2028')}`)
    const pieces = Array.from({ length: Math.ceil(bytes.length / 7) }, (_, i) => bytes.subarray(7 * i, 7 * i + 7))
    const out = await streamed(Readable.from(pieces))
    expect(out.map(({ id, verdict }) => [id, verdict])).toEqual([
      ['é', 'correct'],
      ['ü', 'correct'],
      ['\u2028', 'correct'],
    ])
  })

  it('answers a line before the next one is there', async () => {
    const input = new PassThrough()
    const output = new PassThrough()
    const done = run([], { input, output, errors: new PassThrough() })
    for (const id of ['one', 'two']) {
      input.write(`${JSON.stringify({ ...LINE, id })}\n`)
      const [chunk] = await new Promise<Buffer[]>((resolve) => output.once('data', (data: Buffer) => resolve([data])))
      expect(JSON.parse(String(chunk)).id).toBe(id)
    }
    input.end()
    expect(await done).toBe(0)
  })

  it('waits for a slow reader instead of keeping everything', { timeout: 60_000 }, async () => {
    const total = 8000
    let taken = 0
    const lines = (function* () {
      for (; taken < total; taken++) yield `${JSON.stringify({ ...LINE, id: taken })}\n`
    })()
    const output = new PassThrough({ highWaterMark: 1024 })
    const done = run([], { input: Readable.from(lines), output, errors: new PassThrough() })
    // Nobody reads: turns of the event loop go by until no more lines are taken.
    for (let still = 0, before = -1; still < 50; still = taken === before ? still + 1 : 0) {
      before = taken
      await new Promise((resolve) => setImmediate(resolve))
    }
    expect(taken).toBeLessThan(total / 2)
    let text = ''
    output.on('data', (chunk) => {
      text += chunk
    })
    expect(await done).toBe(0)
    const ids = text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line).id)
    expect(ids).toEqual(Array.from({ length: total }, (_, id) => id))
  })
})
