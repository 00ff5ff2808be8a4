/** A pack in a link: there and back, cut, too large, and whatever else somebody may put there. */

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readBundle } from '../../../src/packs/files/bundle.ts'
import { linkOf, MOST_LINK_BYTES, zipIn } from '../../../src/packs/files/link.ts'
import { zipOf } from '../../../src/packs/files/zip.ts'
import { cases } from '../../cases.ts'
import { offeredOf, SMALL_PACK } from '../../fakes/smallPack.ts'

const bundleOf = (zip: Uint8Array) => readBundle(offeredOf({ 'link.zip': zip }))

function fragmentOf(zip: Uint8Array): string {
  const link = linkOf(zip)
  if ('wrong' in link) throw new Error(link.wrong)
  return link.fragment
}

describe('a pack in a link', () => {
  it('comes back as it was, from letters that every address may have', async () => {
    const fragment = fragmentOf(zipOf(SMALL_PACK, 'wren', 0))
    expect(fragment).toMatch(/^pack=[A-Za-z0-9_-]+$/)
    const zip = zipIn(fragment)
    if (!(zip instanceof Uint8Array)) throw new Error('no zip')
    expect(await bundleOf(zip)).toMatchObject({ files: SMALL_PACK })
  })

  it('is any bytes up to its size, and none above it', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200, minLength: 1 }), (bytes) => {
        expect(zipIn(fragmentOf(bytes))).toEqual(bytes)
      }),
      { numRuns: cases(200) },
    )
    const largest = new Uint8Array(MOST_LINK_BYTES)
    expect(zipIn(fragmentOf(largest))).toEqual(largest)
    expect(linkOf(new Uint8Array(MOST_LINK_BYTES + 1000))).toEqual({
      wrong: 'The pack has 33 kB packed, and a link holds 32: send the file instead.',
    })
  })

  it('that is longer than any is told to be, not damaged', () => {
    expect(zipIn(`pack=${'A'.repeat(60_000)}`)).toEqual({
      wrong: 'The link is longer than any that holds a pack (32 kB): ask for the file.',
    })
  })

  it('that was cut is refused in one sentence, and changes nothing', async () => {
    const fragment = fragmentOf(zipOf(SMALL_PACK, 'wren', 0))
    for (let length = 'pack='.length; length < fragment.length; length += 37) {
      const zip = zipIn(fragment.slice(0, length))
      const read = zip instanceof Uint8Array ? await bundleOf(zip) : zip
      expect(read).toMatchObject({ wrong: expect.stringMatching(/^[^\n]+\.$/) })
    }
  })

  it.each(['pack=', 'pack=%00', 'pack=a b', 'pack=A'])('%.20s is none', (fragment) => {
    expect(zipIn(fragment)).toEqual({ wrong: 'The link is cut short or damaged: copy all of it.' })
  })

  it('is no other address', () => {
    expect(zipIn('packs')).toBeUndefined()
    expect(zipIn('')).toBeUndefined()
  })
})
