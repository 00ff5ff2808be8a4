/** A pack in the fragment of a link: its zip in letters that an address may have. A fragment is sent to no server. */

import type { Refused } from './offered.ts'

const NAME = 'pack='

/** What messages and address bars still carry whole. */
export const MOST_LINK_BYTES = 32_000

/** Behind the "#" of an address; refused where the zip is too large for one. */
export function linkOf(zip: Uint8Array): { readonly fragment: string } | Refused {
  if (zip.length > MOST_LINK_BYTES) {
    const size = `${(zip.length / 1_000).toFixed(0)} kB`
    return { wrong: `The pack has ${size} packed, and a link holds ${MOST_LINK_BYTES / 1_000}: send the file instead.` }
  }
  const letters = btoa(Array.from(zip, (byte) => String.fromCharCode(byte)).join(''))
  return { fragment: NAME + letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '') }
}

/** The zip, not trusted yet; undefined where the fragment is another address. */
export function zipIn(fragment: string): Uint8Array | Refused | undefined {
  if (!fragment.startsWith(NAME)) return undefined
  const letters = fragment.slice(NAME.length)
  const cut = { wrong: 'The link is cut short or damaged: copy all of it.' }
  if (letters.length > (MOST_LINK_BYTES * 4) / 3 + 4) {
    return { wrong: `The link is longer than any that holds a pack (${MOST_LINK_BYTES / 1_000} kB): ask for the file.` }
  }
  if (!/^[\w-]+$/.test(letters)) return cut
  try {
    const bytes = atob(letters.replaceAll('-', '+').replaceAll('_', '/'))
    return Uint8Array.from(bytes, (letter) => letter.charCodeAt(0))
  } catch {
    return cut
  }
}
