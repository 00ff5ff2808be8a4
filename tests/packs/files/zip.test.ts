/** What a zip may hold, and what may be wrong with one: every fault is one sentence, and nothing is thrown or unpacked without end. */

import fc from 'fast-check'
import { zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { MOST_FILE_BYTES, MOST_OFFERED, MOST_PACK_BYTES } from '../../../src/kernel/bounds.ts'
import { crc32 } from '../../../src/packs/files/crc32.ts'
import { isRefused, type OfferedFile } from '../../../src/packs/files/offered.ts'
import { filesInZip, zipOf } from '../../../src/packs/files/zip.ts'
import { cases } from '../../cases.ts'
import { SMALL_PACK } from '../../fakes/smallPack.ts'

const encode = (text: string) => new TextEncoder().encode(text)
const ZIP = zipOf(SMALL_PACK, 'wren', Date.UTC(2000, 0, 1))

/** Where the directory of a zip without a comment begins. */
const directoryOf = (zip: Uint8Array) => new DataView(zip.buffer, zip.byteOffset).getUint32(zip.length - 6, true)

/** With some of its bytes changed: a number of so many bytes at a place. */
function patched(
  zip: Uint8Array,
  ...patches: readonly (readonly [at: number, bytes: 1 | 2 | 4, value: number])[]
): Uint8Array {
  const copy = zip.slice()
  const view = new DataView(copy.buffer)
  for (const [at, bytes, value] of patches) {
    if (bytes === 4) view.setUint32(at, value, true)
    else if (bytes === 2) view.setUint16(at, value, true)
    else view.setUint8(at, value)
  }
  return copy
}

function filesOf(zip: Uint8Array): readonly OfferedFile[] {
  const files = filesInZip(zip)
  if (isRefused(files)) throw new Error(files.wrong)
  return files
}

function refusalOf(zip: Uint8Array): string {
  const files = filesInZip(zip)
  return isRefused(files) ? files.wrong : ''
}

/** What comes of the first file. */
async function firstOf(zip: Uint8Array) {
  const [file] = filesOf(zip)
  return file?.bytes()
}

describe('a zip', () => {
  it('gives back what was put into it, to the byte', async () => {
    const read = await Promise.all(filesOf(ZIP).map(async ({ path, bytes }) => [path, await bytes()] as const))
    const put = Object.entries(SMALL_PACK).map(([path, text]) => [`wren/${path}`, encode(text)] as const)
    expect(Object.fromEntries(read)).toEqual(Object.fromEntries(put))
  })

  it('of any texts does', async () => {
    const texts = fc.dictionary(fc.stringMatching(/^[a-z]{1,12}$/), fc.string({ unit: 'binary' }), { maxKeys: 8 })
    await fc.assert(
      fc.asyncProperty(texts, async (files) => {
        const read = await Promise.all(
          filesOf(zipOf(files, 'x', 0)).map(async ({ path, bytes }) => [path, await bytes()] as const),
        )
        expect(Object.fromEntries(read)).toEqual(
          Object.fromEntries(Object.entries(files).map(([path, text]) => [`x/${path}`, encode(text)])),
        )
      }),
      { numRuns: cases(100) },
    )
  })

  it('may hold files as they are, folders of their own, and a comment behind it', async () => {
    const stored = zipSync({ 'a/': new Uint8Array(), 'a/pack.yaml': encode('id: a') }, { level: 0 })
    const comment = encode('made by hand')
    const commented = new Uint8Array([...patched(stored, [stored.length - 2, 2, comment.length]), ...comment])
    expect(filesOf(commented).map(({ path }) => path)).toEqual(['a/pack.yaml'])
    expect(await firstOf(commented)).toEqual(encode('id: a'))
  })

  it('keeps the sum of each file', () => {
    // The check value of CRC-32 in common lists of such sums.
    expect(crc32(encode('123456789'))).toBe(0xcbf43926)
  })
})

describe('a zip is refused in one sentence', () => {
  const at = directoryOf(ZIP)
  const many = Object.fromEntries(
    Array.from({ length: MOST_OFFERED + 1 }, (_, number) => [`${number}`, new Uint8Array()]),
  )

  it.each([
    ['that is none', encode('id: wren'), /no zip/],
    ['that was cut', ZIP.subarray(0, ZIP.length - 30), /cut short or damaged/],
    ['whose directory was cut', patched(ZIP, [at, 4, 0]), /cut short or damaged/],
    ['that is encrypted', patched(ZIP, [at + 8, 2, 1]), /encrypted; make one without a password/],
    ['that is in the form for large ones', patched(ZIP, [at + 24, 4, 0xffffffff]), /form for very large files/],
    ['with a link', patched(ZIP, [at + 38, 4, 0xa1ff0000]), /"wren\/figures.yaml" in the zip is a link/],
    ['with too many files', zipSync(many), /holds 501 files; at most 500/],
    ['that is too large', new Uint8Array(MOST_PACK_BYTES + 1), /has 4.0 MB; .* at most 4.0 MB/],
  ])('%s', (_, zip, sentence) => {
    expect(refusalOf(zip)).toMatch(sentence)
  })

  it.each([
    ['whose bytes were changed', patched(ZIP, [60, 1, 0x55]), /damaged/],
    ['whose sum is another', patched(ZIP, [at + 16, 4, 1]), /damaged/],
    ['that begins nowhere', patched(ZIP, [at + 42, 4, at]), /damaged/],
    ['that is longer than the zip', patched(ZIP, [at + 20, 4, ZIP.length]), /damaged/],
    ['that is packed in an unusual way', patched(ZIP, [at + 10, 2, 14]), /packed in an unusual way/],
    ['that is shorter than it says', patched(ZIP, [at + 24, 4, 9_999]), /damaged/],
  ])('or a file in it, %s', async (_, zip, sentence) => {
    expect(await firstOf(zip)).toMatchObject({ wrong: expect.stringMatching(sentence) })
  })

  it('or a file that unpacks to more than was said: it stops there', async () => {
    const bomb = zipSync({ 'pack.yaml': new Uint8Array(60_000_000) }, { level: 1 })
    const [honest] = filesOf(bomb)
    expect(honest?.size).toBeGreaterThan(MOST_FILE_BYTES)
    const liar = patched(bomb, [directoryOf(bomb) + 24, 4, 100])
    const before = process.memoryUsage().arrayBuffers
    expect(await firstOf(liar)).toMatchObject({ wrong: expect.stringMatching(/unpacks to more than the zip says/) })
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(30_000_000)
  })
})

describe('whatever the bytes are', () => {
  /** Everything in it is read or refused, and nothing is thrown. */
  async function readAll(zip: Uint8Array): Promise<void> {
    const files = filesInZip(zip)
    if (isRefused(files)) {
      expect(files.wrong).toMatch(/^[A-Z"][^\n]{5,400}\.$/)
      return
    }
    for (const file of files) {
      if (file.size > MOST_FILE_BYTES) continue
      const bytes = await file.bytes()
      if (isRefused(bytes)) expect(bytes.wrong).toMatch(/^[A-Z"][^\n]{5,400}\.$/)
      else expect(bytes.length).toBe(file.size)
    }
  }

  it('a zip that was cut anywhere is told or read', async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(ZIP.length), (length) => readAll(ZIP.subarray(0, length))),
      { numRuns: cases(200) },
    )
  })

  it('a zip with bytes changed anywhere is told or read', async () => {
    const change = fc.tuple(fc.nat(ZIP.length - 1), fc.nat(255))
    // The directory and its end are what a zip is read by.
    const inDirectory = fc.tuple(fc.integer({ min: directoryOf(ZIP), max: ZIP.length - 1 }), fc.nat(255))
    await fc.assert(
      fc.asyncProperty(fc.array(fc.oneof(change, inDirectory), { minLength: 1, maxLength: 6 }), (changes) =>
        readAll(patched(ZIP, ...changes.map(([at, value]) => [at, 1, value] as const))),
      ),
      { numRuns: cases(1_000) },
    )
  })

  it('bytes that begin like a zip are told', async () => {
    const end = ZIP.subarray(ZIP.length - 22)
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), (middle) =>
        readAll(new Uint8Array([0x50, 0x4b, ...middle, ...end])),
      ),
      { numRuns: cases(200) },
    )
  })
})
