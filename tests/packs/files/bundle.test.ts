/** From what a person hands in to the files of a pack: all of it or nothing, and every fault in one sentence. */

import fc from 'fast-check'
import { zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { MOST_FILE_BYTES, MOST_FILES, MOST_OFFERED } from '../../../src/kernel/bounds.ts'
import { showProblem } from '../../../src/kernel/problemLine.ts'
import { type Bundle, pastedFiles, readBundle } from '../../../src/packs/files/bundle.ts'
import { inspect } from '../../../src/packs/files/inspect.ts'
import { isRefused } from '../../../src/packs/files/offered.ts'
import { PACK_FILES } from '../../../src/packs/read.ts'
import { cases } from '../../cases.ts'
import { offeredOf, SMALL_PACK } from '../../fakes/smallPack.ts'
import { mistaken } from '../../fuzz/mutations.ts'

type Given = Readonly<Record<string, string | Uint8Array>>

const encode = (text: string) => new TextEncoder().encode(text)
const inFolder = (folder: string, files: Given = SMALL_PACK): Given =>
  Object.fromEntries(Object.entries(files).map(([path, content]) => [`${folder}/${path}`, content]))
const zipped = (files: Given) =>
  zipSync(
    Object.fromEntries(
      Object.entries(files).map(([path, content]) => [path, typeof content === 'string' ? encode(content) : content]),
    ),
  )

async function bundleOf(files: Given): Promise<Bundle> {
  const bundle = await readBundle(offeredOf(files))
  if (isRefused(bundle)) throw new Error(bundle.wrong)
  return bundle
}

async function refusalOf(files: Given): Promise<string> {
  const bundle = await readBundle(offeredOf(files))
  return isRefused(bundle) ? bundle.wrong : ''
}

describe('a pack comes in', () => {
  it.each<[string, Given, string]>([
    ['as its files', SMALL_PACK, ''],
    ['as its folder', inFolder('wren'), 'wren'],
    ['as a folder in folders', inFolder('home/packs/wren'), 'wren'],
    ['as a zip of its folder', { 'download.zip': zipped(inFolder('wren')) }, 'wren'],
    ['as a zip of its files', { 'My wren.ZIP': zipped(SMALL_PACK) }, 'My wren'],
  ])('%s', async (_, files, label) => {
    expect(await bundleOf(files)).toEqual({ files: SMALL_PACK, label, told: [] })
  })

  it('to the byte: line ends, marks and spaces stay', async () => {
    const text = '\ufeffid: wren\r\n\tname:  Wren  \n\n'
    expect((await bundleOf({ 'pack.yaml': text })).files).toEqual({ 'pack.yaml': text })
  })

  it('with mistakes in it, or without some of its files: it is kept as it is', async () => {
    expect((await bundleOf({ 'figures.yaml': ': [' })).files).toEqual({ 'figures.yaml': ': [' })
  })

  it('without what systems add of their own, and with what no pack has told', async () => {
    const more = {
      '__MACOSX/wren/._pack.yaml': 'x',
      'wren/.DS_Store': 'x',
      'wren/notes.txt': 'x',
      'wren/procedure.yaml': 'x',
      'wren/inputs/today.yml': 'x',
      'elsewhere/inputs/other.yaml': 'status: final',
    }
    const { files, told } = await bundleOf({ 'wren.zip': zipped({ ...inFolder('wren'), ...more }) })
    expect(files).toEqual(SMALL_PACK)
    expect(told).toEqual([
      '"notes.txt" was not read; no file of a pack is called so.',
      '"procedure.yaml" was not read; procedures.yaml would be right.',
      '"inputs/today.yml" was not read; inputs/today.yaml would be right.',
      '"elsewhere/inputs/other.yaml" was not read; no file of a pack is called so.',
    ])
  })

  it('of many that no pack has, the first few are named and the others counted', async () => {
    const many = Object.fromEntries(Array.from({ length: 30 }, (_, number) => [`${number}.txt`, '']))
    const { told } = await bundleOf({ ...SMALL_PACK, ...many })
    expect(told).toHaveLength(6)
    expect(told.at(-1)).toBe('25 more files were not read.')
  })

  it('with sheets that were chosen beside its files, without their folder', async () => {
    const { 'inputs/today.yaml': sheet = '', ...rest } = SMALL_PACK
    expect((await bundleOf({ ...rest, 'today.yaml': sheet })).files).toEqual(SMALL_PACK)
  })
})

describe('nothing comes in', () => {
  const sheets = (count: number) =>
    Object.fromEntries(Array.from({ length: count }, (_, number) => [`inputs/${number}.yaml`, 'status: final']))

  it.each<[string, Given, RegExp]>([
    ['from nothing', {}, /^There is no file in it; pack.yaml, figures.yaml and procedures.yaml would be right/],
    ['from other files', { 'letter.txt': 'x' }, /^There is no file of a pack in it/],
    ['from sheets alone', sheets(1), /^There is no file of a pack in it/],
    ['from a zip with other files', { 'a.zip': zipped({ 'letter.txt': 'x' }) }, /^There is no file of a pack/],
    ['from what is a zip by its name alone', { 'a.zip': 'id: wren' }, /^"a.zip" is no zip/],
    ['from two zips', { 'a.zip': zipped(SMALL_PACK), 'b.zip': zipped(SMALL_PACK) }, /one zip, .* at a time/],
    ['from a zip beside a file', { 'a.zip': zipped(SMALL_PACK), 'pack.yaml': 'id: a' }, /came together/],
    [
      'from two packs',
      { ...inFolder('a'), ...inFolder('b') },
      /packs in "a\/" and in "b\/"; import one pack at a time/,
    ],
    [
      'from above its folder',
      { 'a.zip': zipped({ ...SMALL_PACK, '../pack.yaml': 'x' }) },
      /^"..\/pack.yaml" leads out/,
    ],
    ['from the root of a disk', { '/etc/pack.yaml': 'x' }, /from the root of a disk/],
    ['from a drive', { 'C:/pack.yaml': 'x' }, /from the root of a disk/],
    ['with a backslash', { 'wren\\pack.yaml': 'x' }, /has a backslash/],
    ['from a folder without a name', { 'wren//pack.yaml': 'x' }, /a folder without a name/],
    [
      'under a name of the language',
      { ...SMALL_PACK, 'inputs/__proto__.yaml': 'x' },
      /"__proto__.yaml" cannot be a name/,
    ],
    ['in a folder of such a name', inFolder('constructor'), /"constructor" cannot be a name/],
    ['with a control character', { 'a\u0000/pack.yaml': 'x' }, /control character in its name/],
    ['with an endless name', { [`${'a/'.repeat(150)}pack.yaml`]: 'x' }, /longer than 240 letters/],
    [
      'in another encoding',
      { 'pack.yaml': new Uint8Array([0x69, 0xff, 0xfe]) },
      /"pack.yaml" is not UTF-8 text; save it/,
    ],
    [
      'that is too large',
      { 'pack.yaml': new Uint8Array(MOST_FILE_BYTES + 1) },
      /"pack.yaml" has 1200 kB; at most 1200 kB/,
    ],
    ['with too many sheets', { ...SMALL_PACK, ...sheets(MOST_FILES + 1) }, /in inputs\/; at most 50 are read/],
    [
      'from too many files',
      Object.fromEntries(Array.from({ length: MOST_OFFERED + 1 }, (_, n) => [`${n}`, ''])),
      /at most 500/,
    ],
  ])('%s', async (_, files, sentence) => {
    expect(await refusalOf(files)).toMatch(sentence)
  })

  it('where all files together are too large', async () => {
    const sheet = `status: final\n#${' '.repeat(1_100_000)}`
    const large = {
      ...SMALL_PACK,
      'inputs/a.yaml': sheet,
      'inputs/b.yaml': sheet,
      'inputs/c.yaml': sheet,
      'inputs/d.yaml': sheet,
    }
    expect(await refusalOf(large)).toMatch(/^The files of the pack have 44\d\d kB together; at most 4000 kB are read/)
  })

  it('where a file is there twice', async () => {
    const twice = [...offeredOf({ 'pack.yaml': 'id: a' }), ...offeredOf({ 'pack.yaml': 'id: b' })]
    expect(await readBundle(twice)).toEqual({ wrong: '"pack.yaml" is there twice; one of them should go.' })
  })

  it('where a file has grown since it was looked at', async () => {
    const [pack] = offeredOf({ 'pack.yaml': 'id: a' })
    const grown = { ...pack, path: 'pack.yaml', size: 5, bytes: async () => new Uint8Array(MOST_FILE_BYTES + 1) }
    expect(await readBundle([grown])).toMatchObject({ wrong: expect.stringMatching(/has 1200 kB/) })
  })
})

describe('a pasted text', () => {
  it.each(Object.entries(SMALL_PACK))('is known for %s by its names', async (path, text) => {
    const files = pastedFiles(text)
    expect(isRefused(files) ? files : files.map((file) => file.path)).toEqual([
      path.startsWith('inputs/') ? 'inputs/pasted.yaml' : path,
    ])
  })

  it('is several files under headings', async () => {
    const text = Object.entries(SMALL_PACK)
      .map(([path, content]) => `==> ${path} <==\n${content}`)
      .join('\n')
    const files = pastedFiles(text)
    expect(isRefused(files) ? files : await readBundle(files)).toEqual({ files: SMALL_PACK, label: '', told: [] })
  })

  it('that is none of them is refused', () => {
    expect(pastedFiles('Dear pilot,')).toMatchObject({ wrong: expect.stringMatching(/^The text is no file of a pack/) })
  })
})

describe('whatever comes in', () => {
  const SENTENCE = /^[A-Z"][^\n\r]{5,600}\.$/
  const bornWith = () => JSON.stringify(Reflect.ownKeys(Object.prototype).map(String))

  it('under whatever names is read or told, and changes nothing of the language', async () => {
    const part = fc.oneof(
      fc.constantFrom(
        '..',
        '.',
        '',
        '__proto__',
        'constructor',
        'a\\b',
        'inputs',
        'wren',
        'C:',
        '\u202e',
        '.git',
        '__MACOSX',
      ),
      fc.string({ maxLength: 12 }),
    )
    const name = fc.oneof(fc.constantFrom(...PACK_FILES, '__proto__.yaml', 'today.yaml'), part)
    const path = fc.tuple(fc.array(part, { maxLength: 4 }), name).map((parts) => parts.flat().join('/'))
    const content = fc.oneof(
      fc.constantFrom(...Object.values(SMALL_PACK)).map(encode),
      fc.uint8Array({ maxLength: 60 }),
    )
    const before = bornWith()
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(path, content), { maxLength: 8 }), async (files) => {
        const offered = files.flatMap(([path, bytes]) => offeredOf({ [path]: bytes }))
        const bundle = await readBundle(offered)
        if (isRefused(bundle)) expect(bundle.wrong).toMatch(SENTENCE)
        else {
          for (const one of Object.keys(bundle.files))
            expect(one).toMatch(/^(inputs\/[^/]+|pack|figures|tables|procedures|papers|grading)\.yaml$/)
          for (const line of bundle.told) expect(line).toMatch(SENTENCE)
        }
        expect(bornWith()).toBe(before)
      }),
      { numRuns: cases(1_000) },
    )
  })

  it('with whatever mistakes is inspected, and every problem has its place', async () => {
    const path = fc.constantFrom(...Object.keys(SMALL_PACK))
    await fc.assert(
      fc.asyncProperty(path, fc.nat(), async (path, seed) => {
        const { pack, problems } = await inspect({ ...SMALL_PACK, [path]: mistaken(SMALL_PACK[path] ?? '', seed) })
        expect(pack !== undefined || problems.length > 0).toBe(true)
        for (const problem of problems)
          expect(showProblem(problem)).toMatch(/^(warning: )?[\w./]+:\d+:\d+: \S[^\n\r]*$/)
      }),
      { numRuns: cases(200) },
    )
  })

  const levels = Array.from({ length: 9 }, (_, level) => `a${level + 1}: &a${level + 1} [${`*a${level}, `.repeat(9)}]`)
  it.each([
    ['nested without end', '['.repeat(50_000)],
    ['aliases that unfold without end', `a0: &a0 [x]\n${levels.join('\n')}\n`],
    ['an alias of itself', '&a [*a]'],
    ['a name of the language', '__proto__: {id: x}\n'],
  ])('%s is told at its place', async (_, text) => {
    for (const file of Object.keys(SMALL_PACK)) {
      const { pack, problems, lists } = await inspect({ ...SMALL_PACK, [file]: text })
      expect([file, pack === undefined || file.startsWith('inputs/')]).toEqual([file, true])
      expect(problems.map(({ place }) => place?.file)).toContain(file)
      expect(lists).toBe(file === 'procedures.yaml' ? 0 : 1)
    }
  })
})
