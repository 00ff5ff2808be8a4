/** A pack's SHA-256, the same on the command line and in the page. */

/** File names in code unit order; for each its name, NUL, its text, NUL, all in UTF-8. */
export function digestBytes(texts: Readonly<Record<string, string>>): Uint8Array<ArrayBuffer> {
  const files = Object.keys(texts).sort()
  return new TextEncoder().encode(files.map((file) => `${file}\0${texts[file]}\0`).join(''))
}

/** In small hexadecimal letters. */
export async function packSha256(texts: Readonly<Record<string, string>>): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', digestBytes(texts))
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
