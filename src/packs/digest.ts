/** The bytes over which a pack's SHA-256 is taken, the same on the command line and in the page. */

/** File names in code unit order; for each its name, NUL, its text, NUL, all in UTF-8. */
export function digestBytes(texts: Readonly<Record<string, string>>): Uint8Array {
  const files = Object.keys(texts).sort()
  return new TextEncoder().encode(files.map((file) => `${file}\0${texts[file]}\0`).join(''))
}
