import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PassThrough } from 'node:stream'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import { run } from '../../src/cli/hear.ts'

const CHECK = fileURLToPath(new URL('../../audio/check/', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'hear-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Runs the command with its figures in a file; the output's lines as objects, or as they are. */
async function hear(args: readonly string[], figures: object = {}) {
  const file = join(folder, 'figures.json')
  writeFileSync(file, JSON.stringify(figures))
  const [output, errors] = [new PassThrough(), new PassThrough()]
  const status = await run(['--figures', file, ...args], { input: new PassThrough(), output, errors })
  return { status, text: String(output.read() ?? ''), errors: String(errors.read() ?? '') }
}

const trim = (value: number) => ({ trim: { kind: 'trim', decimals: 1, value } })
const TRIM = ['--response', '<trim> [set]', '--challenge', 'takeoff trim']
const wav = (name: string) => join(CHECK, `${name}.wav`)

describe('hearing a sound file', () => {
  it('accepts a trim that is the figure, and refuses the same words for another figure', {
    timeout: 60_000,
  }, async () => {
    const file = wav('five-point-two-up-set')
    const right = await hear([...TRIM, file], trim(5.2))
    expect(JSON.parse(right.text)).toMatchObject({ file, heard: 'five point two up set', verdict: 'correct' })
    const wrong = await hear([...TRIM, file], trim(6.2))
    expect(JSON.parse(wrong.text)).toMatchObject({ heard: 'five point two up set', verdict: 'negative' })
  })

  it('never takes unlocked for locked', { timeout: 60_000 }, async () => {
    const states = ['--states', '[["closed"],["open"],["locked"],["unlocked"]]']
    const asked = ['--response', 'closed and locked', ...states]
    const { text } = await hear([...asked, wav('closed-and-unlocked'), wav('closed-and-locked')])
    const [unlocked, locked] = text
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line))
    expect(unlocked.verdict).not.toBe('correct')
    expect(locked).toMatchObject({ heard: 'closed and locked', verdict: 'correct' })
  })

  it('takes no sentence for an answer', { timeout: 60_000 }, async () => {
    const { text } = await hear([...TRIM, wav('the-weather-looks-rather-nice-over-there-today')], trim(5.2))
    expect(JSON.parse(text)).toMatchObject({ verdict: 'sayAgain', because: 'notUnderstood' })
  })

  it('prints the same grammar whatever the figure is', async () => {
    const [one, other] = [await hear([...TRIM, '--grammar'], trim(5.2)), await hear([...TRIM, '--grammar'], trim(9.9))]
    expect(one.text).toBe(other.text)
    expect(one.text).toMatch(/^#JSGF V1.0;/)
  })

  it('says what is wrong with a file, and goes on with the next', { timeout: 60_000 }, async () => {
    const broken = join(folder, 'broken.wav')
    writeFileSync(broken, 'not sound')
    const { status, text, errors } = await hear(
      [...TRIM, broken, join(folder, 'none.wav'), folder, wav('stand-by')],
      trim(5.2),
    )
    expect(status).toBe(1)
    expect(errors).toBe(
      `${join(folder, 'none.wav')}: no such file; name a WAV file\n${broken}: not a WAV file\n` +
        `${folder}: a folder, not a file; name a WAV file\n`,
    )
    expect(JSON.parse(text)).toMatchObject({ heard: 'stand by', verdict: 'command', command: 'standBy' })
  })

  it.each([
    [[], 2],
    [['--response', '<trim'], 2],
    [['--response', '<trim', 'x.wav'], 1],
    [['--response', '<other>', 'x.wav'], 1],
  ])('with wrong arguments %j ends with status %i and one line', async (args, status) => {
    const result = await hear(args, trim(5.2))
    expect(result.status).toBe(status)
    expect(result.errors.trim().split('\n')).toHaveLength(1)
    expect(result.text).toBe('')
  })
})
