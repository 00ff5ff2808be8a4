/** What came from outside, as a message may show it: on one line, never long, with nothing in it that cannot be seen. */

const MOST_SHOWN = 60

/** Control and format characters, halves of pairs, line and paragraph separators. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu
const WRITTEN: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' }

/** A whole message on one line: what cannot be seen is written out, "\n", "\u{200b}". */
export function onOneLine(text: string): string {
  return text.replace(UNSEEN, (character) => WRITTEN[character] ?? `\\u{${character.codePointAt(0)?.toString(16)}}`)
}

/** A name or value in quotes; of a long one the beginning and its length. */
export function quoted(given: string | number): string {
  const characters = [...String(given).slice(0, MOST_SHOWN + 1)]
  const isLong = characters.length > MOST_SHOWN
  const shown = `"${onOneLine(characters.slice(0, MOST_SHOWN).join(''))}${isLong ? '...' : ''}"`
  return isLong ? `${shown} (${String(given).length} characters)` : shown
}
