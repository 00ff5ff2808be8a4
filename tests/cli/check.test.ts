import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { run } from '../../src/cli/check.ts'
import { runCommand } from './io.ts'

let dir: string
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'pack-'))
  cpSync('checklists/marram', dir, { recursive: true })
})
afterEach(() => rmSync(dir, { recursive: true }))

function change(file: string, from: string, to: string): void {
  const path = join(dir, file)
  writeFileSync(
    path,
    readFileSync(path, 'utf8').replace(from, () => to),
  )
}

describe('check', () => {
  test('is silent about the packs that come with the app', async () => {
    expect(await runCommand(run, ['checklists/marram', 'checklists/pair'])).toEqual({
      status: 0,
      output: '',
      errors: '',
    })
  })

  test('names a word that cannot be heard, until the pack says how it is pronounced', async () => {
    change('procedures.yaml', 'challenge: ', 'challenge: zxqvwk ')
    const { status, output } = await runCommand(run, [dir])
    expect(status).toBe(0)
    expect(output).toMatch(/procedures\.yaml:\d+:\d+: "zxqvwk" is in no dictionary/)
    change('pack.yaml', 'units:', 'pronunciations: {zxqvwk: Z IH K}\nunits:')
    expect(await runCommand(run, [dir])).toEqual({ status: 0, output: '', errors: '' })
    change('pack.yaml', 'Z IH K', 'Z IHX K')
    expect((await runCommand(run, [dir])).errors).toMatch(/pack\.yaml:\d+:\d+: .*sounds in ARPAbet/)
  })

  test('knows "constructor" as the word it is', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', '"<takeoffTrim> [constructor]"')
    expect(await runCommand(run, [dir])).toEqual({ status: 0, output: '', errors: '' })
  })

  test('names a word of a million letters by its beginning', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', `"<takeoffTrim> [${'abcdefghij'.repeat(100_000)}]"`)
    const { status, output, errors } = await runCommand(run, [dir])
    expect({ status, errors }).toEqual({ status: 0, errors: '' })
    expect(output).toMatch(/^\S+procedures\.yaml:\d+:\d+: "(abcdefghij){4}…" is in no dictionary.*\n$/)
  })

  test('prints one line a mistake, with file, line and column, and exits 1', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', '"<takeofTrim> [set]"')
    change('tables.yaml', '[4.1, 3.5, 2.9]', '[4.1, 3.5]')
    const { status, output, errors } = await runCommand(run, [dir])
    expect(status).toBe(1)
    expect(output).toBe('')
    const lines = errors.trimEnd().split('\n')
    expect(lines).toHaveLength(2)
    expect(lines[0]).toMatch(/tables\.yaml:\d+:9: table takeoffTrim: nothing for flap 19; 2 entries for 3$/)
    expect(lines[1]).toMatch(/procedures\.yaml:\d+:24: no figure is called "takeofTrim"; did you mean "takeoffTrim"\?$/)
    for (const line of lines) expect(line.startsWith(`${dir}/`)).toBe(true)
  })

  test('goes on to the next folder after one with mistakes', async () => {
    change('pack.yaml', 'id: marram', 'id: Marram Jet')
    const { status, errors } = await runCommand(run, ['nowhere', dir, 'checklists/pair'])
    expect(status).toBe(1)
    expect(errors.split('\n').map((line) => line.replace(dir, 'DIR'))).toEqual([
      'nowhere: no such folder; name the folder of a pack, such as checklists/NAME',
      expect.stringMatching(/^DIR\/pack\.yaml:\d+:5: id "Marram Jet" should be a name/),
      '',
    ])
  })

  test('prints the JSON Schema of every file of a pack', async () => {
    const { status, output } = await runCommand(run, ['--schema'])
    expect(status).toBe(0)
    const schema = JSON.parse(output) as Record<string, { $schema: string; properties: object }>
    expect(Object.keys(schema)).toEqual([
      'pack.yaml',
      'figures.yaml',
      'tables.yaml',
      'procedures.yaml',
      'inputs/*.yaml',
    ])
    expect(Object.keys(schema['figures.yaml']?.properties ?? {})).toContain('stations')
    for (const one of Object.values(schema)) expect(one.$schema).toContain('json-schema.org')
  })

  test.each([[[]], [['--schema', 'checklists/pair']], [['--what']]])('called as %j is wrong usage', async (args) => {
    const { status, errors } = await runCommand(run, args)
    expect(status).toBe(2)
    expect(errors).toBe('usage: check DIR... | check --schema\n')
  })
})
