/** Whatever goes wrong in a command is one line and status 1; no stack trace reaches a person. */

import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PassThrough } from 'node:stream'
import { afterAll, describe, expect, test } from 'vitest'
import { guarded } from '../../src/cli/guarded.ts'

async function told(error: unknown, showsStack = false) {
  const errors = new PassThrough()
  const status = await guarded({ errors }, showsStack, () => Promise.reject(error))
  return { status, text: String(errors.read()) }
}

const systemError = (code: string, syscall: string, path?: string) =>
  Object.assign(new Error(`${code}: what the system says, ${syscall}`), { code, syscall, ...(path && { path }) })

describe('an error that nobody caught', () => {
  test.each<[string, unknown, string]>([
    [
      'a bug',
      new TypeError("Cannot read properties of undefined (reading 'x')"),
      "a fault of this program: Cannot read properties of undefined (reading 'x'); OTHERSEAT_STACK=1 shows where\n",
    ],
    [
      'a bug with lines in its message',
      new Error('one\ntwo'),
      'a fault of this program: one\\ntwo; OTHERSEAT_STACK=1 shows where\n',
    ],
    ['something thrown that is no error', 'words', 'a fault of this program: words; OTHERSEAT_STACK=1 shows where\n'],
    ['nothing thrown', undefined, 'a fault of this program: undefined; OTHERSEAT_STACK=1 shows where\n'],
    ['a folder in place of a file', systemError('EISDIR', 'read', 'a/b.yaml'), 'a/b.yaml: a folder, not a file\n'],
    ['a full disk behind the output', systemError('ENOSPC', 'write'), 'the output: no space is left\n'],
    [
      'a code of the system without words of ours',
      systemError('EIO', 'read', 'x'),
      'x: EIO: what the system says, read\n',
    ],
  ])('%s is one line', async (_, error, line) => {
    expect(await told(error)).toEqual({ status: 1, text: line })
  })

  test('shows where it was for who asks', async () => {
    const { text } = await told(new Error('lost'), true)
    expect(text).toMatch(/^a fault of this program: lost; .*\nError: lost\n {4}at /)
  })
})

test('a command that goes well keeps its status and says nothing', async () => {
  const errors = new PassThrough()
  expect(await guarded({ errors }, false, async () => 2)).toBe(2)
  expect(errors.read()).toBeNull()
})

describe('the command line itself', () => {
  const folder = mkdtempSync(join(tmpdir(), 'cli-'))
  afterAll(() => rmSync(folder, { recursive: true }))

  const cli = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
      encoding: 'utf8',
    })
    return { status, stdout, stderr: stderr.replaceAll(folder, 'DIR') }
  }

  test.each([
    [['rehearse', '--pack', 'checklists/marram', '--inputs', folder, '--answers', folder], /^.*(EISDIR|folder).*\n$/],
    [
      [
        'rehearse',
        '--pack',
        'checklists/pair',
        '--inputs',
        'checklists/pair/inputs/final.yaml',
        '--answers',
        'tests/cli/answers/pair.txt',
        '--log',
        '/dev/full',
      ],
      /^.*no space.*\n$/i,
    ],
    [
      ['figures', '--pack', 'checklists/pair', '--inputs', folder],
      /^DIR: a folder, not a file; name a file of inputs\n$/,
    ],
    [['debrief', folder], /^DIR: a folder, not a file; name a log of a run\n$/],
  ])('%j ends with one line and status 1', (args, line) => {
    const { status, stderr } = cli(...args)
    expect(stderr).toMatch(line)
    expect(stderr).not.toMatch(/^ {4}at /m)
    expect(status).toBe(1)
  })
})
