import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { run } from '../../src/cli/check.ts'
import { runCommand } from './io.ts'

let dir: string
beforeEach(() => {
  dir = join(mkdtempSync(join(tmpdir(), 'pack-')), 'marram')
  cpSync('checklists/marram', dir, { recursive: true })
})
afterEach(() => rmSync(dirname(dir), { recursive: true }))

function change(file: string, from: string, to: string): void {
  const path = join(dir, file)
  writeFileSync(
    path,
    readFileSync(path, 'utf8').replace(from, () => to),
  )
}

describe('check', () => {
  test('says of the packs that come with the app what they hold, and nothing else', async () => {
    const { status, output, errors } = await runCommand(run, ['checklists/marram', 'checklists/pair'])
    expect([status, errors]).toEqual([0, ''])
    expect(output).toMatch(/^checklists\/marram: .*\nchecklists\/pair: .*\n$/)
    expect(output.match(/; every word is in the recorded voice$/gm)).toHaveLength(2)
  })

  test('names a word that cannot be heard, until the pack says how it is pronounced', async () => {
    change('procedures.yaml', 'challenge: ', 'challenge: zxqvwk ')
    const { status, output } = await runCommand(run, [dir])
    expect(status).toBe(0)
    expect(output).toMatch(/procedures\.yaml:\d+:\d+: "zxqvwk" is in no dictionary/)
    change('pack.yaml', 'units:', 'pronunciations: {zxqvwk: Z IH K}\nunits:')
    expect((await runCommand(run, [dir])).output).not.toContain('warning')
    change('pack.yaml', 'Z IH K', 'Z IHX K')
    expect((await runCommand(run, [dir])).errors).toMatch(/pack\.yaml:\d+:\d+: .*sounds in ARPAbet/)
  })

  test('knows "constructor" as the word it is', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', '"<takeoffTrim> [constructor]"')
    const { status, output, errors } = await runCommand(run, [dir])
    expect([status, errors]).toEqual([0, ''])
    expect(output).toMatch(/; 1 word is not in the recorded voice\n {2}not recorded: constructor\n$/)
  })

  test('names a very long word by its beginning', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', `"<takeoffTrim> [${'abcdefghij'.repeat(90)}]"`)
    const { status, output, errors } = await runCommand(run, [dir])
    expect({ status, errors }).toEqual({ status: 0, errors: '' })
    expect(output).toMatch(
      /^warning: \S+procedures\.yaml:\d+:\d+: "(abcdefghij){6}\.\.\." \(900 characters\) is in no dictionary.*\n/,
    )
  })

  test('prints one line a mistake, with file, line and column, and exits 1', async () => {
    change('procedures.yaml', '"<takeoffTrim> [set]"', '"<takeofTrim> [set]"')
    change('tables.yaml', '[4.1, 3.5, 2.9]', '[4.1, 3.5]')
    const { status, output, errors } = await runCommand(run, [dir])
    expect(status).toBe(1)
    expect(output).toBe('')
    const lines = errors.trimEnd().split('\n')
    expect(lines).toHaveLength(2)
    expect(lines[0]).toMatch(
      /tables\.yaml:\d+:9: table takeoffTrim: nothing for flap 19; 2 entries for 3; where nothing is given/,
    )
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
      'papers.yaml',
      'grading.yaml',
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

  test('refuses a pack that is called otherwise than its folder, and says which to change', async () => {
    change('pack.yaml', 'id: marram', 'id: marrow')
    const { status, errors } = await runCommand(run, [dir])
    expect(status).toBe(1)
    expect(errors).toBe(
      `${dir}/pack.yaml:3:5: the id "marrow" is not the name of its folder, "marram"; change the id, or rename the folder to marrow\n`,
    )
  })

  test('knows the folder by whatever way leads to it', async () => {
    const { status } = await runCommand(run, [`${dir}/`, join(dir, 'inputs', '..'), join(dir, '.')])
    expect(status).toBe(0)
  })
})

describe('a file of a pack that cannot be read is one line with its name', () => {
  const tables = () => join(dir, 'tables.yaml')

  test.each<[string, () => void, RegExp]>([
    ['a folder', () => mkdirSync(tables()), /tables\.yaml:1:1: a folder, not a file$/],
    [
      'a link to nothing',
      () => symlinkSync('nowhere', tables()),
      /tables\.yaml:1:1: a link to a file that is not there$/,
    ],
    [
      'a link to itself',
      () => symlinkSync('tables.yaml', tables()),
      /tables\.yaml:1:1: a link that leads back to itself$/,
    ],
    [
      'a device without end',
      () => symlinkSync('/dev/zero', tables()),
      /tables\.yaml:1:1: larger than 1200 kB, and not read$/,
    ],
    [
      'bytes that are no text',
      () => writeFileSync(tables(), Buffer.from([0xff, 0xfe, 0x61, 0])),
      /tables\.yaml:1:1: not UTF-8 text; save it as UTF-8$/,
    ],
    [
      'a file of another ending',
      () => writeFileSync(join(dir, 'tables.yml'), ''),
      /tables\.yml:1:1: its name does not end in \.yaml; rename it to tables\.yaml$/,
    ],
    // The superuser may read anything.
    ...(process.getuid?.() === 0
      ? []
      : [
          ['a file that is locked', () => lock(tables()), /tables\.yaml:1:1: not allowed to be read$/] as [
            string,
            () => void,
            RegExp,
          ],
        ]),
  ])('%s', async (_, make, told) => {
    rmSync(tables())
    make()
    const { status, output, errors } = await runCommand(run, [dir])
    expect([status, output]).toEqual([1, ''])
    expect(errors.trimEnd().split('\n')).toEqual([expect.stringMatching(told)])
  })

  function lock(file: string): void {
    writeFileSync(file, '')
    chmodSync(file, 0)
  }

  test('a folder that is a file, and one with far too many files', async () => {
    const file = join(dir, 'pack.yaml')
    expect((await runCommand(run, [file])).errors).toBe(
      `${file}: a file, not a folder; name the folder of a pack, such as checklists/NAME\n`,
    )
    for (let at = 0; at < 60; at++) writeFileSync(join(dir, `more${at}.yaml`), '')
    expect((await runCommand(run, [dir])).errors).toBe(
      `${dir}: 65 YAML files in one folder, and at most 50 are read; name the folder of a pack, such as checklists/NAME\n`,
    )
  })

  test('a name with a line break in it stays on its line', async () => {
    writeFileSync(join(dir, 'two\nlines.yaml'), '')
    const { errors } = await runCommand(run, [dir])
    expect(errors).toBe(
      `${dir}/two\\nlines.yaml:1:1: no file of a pack is called "two\\nlines.yaml"; there are pack.yaml, figures.yaml, procedures.yaml, tables.yaml, papers.yaml, grading.yaml\n`,
    )
  })
})

describe('the example revisions of a pack are checked with it', () => {
  const final = () => join(dir, 'inputs', 'final.yaml')

  test.each<[string, () => void, RegExp]>([
    [
      'a figure misspelt',
      () => change('inputs/final.yaml', 'taxiFuel', 'taxyFuel'),
      /inputs\/final\.yaml:8:3: no figure is called "taxyFuel"; did you mean "taxiFuel"\?$/,
    ],
    [
      'a slip in YAML',
      () => change('inputs/final.yaml', 'status: final', 'status: [final'),
      /inputs\/final\.yaml:2:9: "\[" is not closed by "\]"$/,
    ],
    [
      'a folder',
      () => {
        rmSync(final())
        mkdirSync(final())
      },
      /inputs\/final\.yaml:1:1: a folder, not a file$/,
    ],
    [
      'another ending',
      () => renameSync(final(), join(dir, 'inputs', 'final.yml')),
      /inputs\/final\.yml:1:1: its name does not end in \.yaml; rename it to final\.yaml$/,
    ],
    [
      'a file in place of their folder',
      () => {
        rmSync(join(dir, 'inputs'), { recursive: true })
        writeFileSync(join(dir, 'inputs'), '')
      },
      /inputs: a file, not a folder$/,
    ],
  ])('%s', async (_, make, told) => {
    make()
    const { status, output, errors } = await runCommand(run, [dir])
    expect([status, output]).toEqual([1, ''])
    expect(errors.trimEnd().split('\n')).toEqual([expect.stringMatching(told)])
  })

  test('an unusual value is advice', async () => {
    change('inputs/final.yaml', 'altimeter: 1009', 'altimeter: 951')
    const { status, output } = await runCommand(run, [dir])
    expect(status).toBe(0)
    expect(output.split('\n')[0]).toBe(
      `warning: ${dir}/inputs/final.yaml:12:14: altimeter 951 hPa is unusual; normally 970 to 1,045 hPa`,
    )
  })

  test('a pack needs none', async () => {
    rmSync(join(dir, 'inputs'), { recursive: true })
    const { status, output, errors } = await runCommand(run, [dir])
    expect([status, errors, output.includes('warning')]).toEqual([0, '', false])
  })
})
