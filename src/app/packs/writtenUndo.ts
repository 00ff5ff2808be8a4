/**
 * What forms and drafts have written into the files of one pack, to be taken back in turn, whichever file is open. What was
 * typed since stays: only the piece that was written is looked for, and put back as it was.
 */

export interface Writing {
  readonly path: string
  readonly before: string
  readonly after: string
  /** "response of flaps". */
  readonly words: string
}

/** So many steps are kept. */
const MOST = 200

/** One field, written letter by letter, is one step; and none where it says again what it said before. */
export function withWriting(past: readonly Writing[], now: Writing): readonly Writing[] {
  const last = past.at(-1)
  const goesOn = last?.path === now.path && last.words === now.words && last.after === now.before
  if (!goesOn) return [...past, now].slice(-MOST)
  const others = past.slice(0, -1)
  return last.before === now.after ? others : [...others, { ...now, before: last.before }]
}

/**
 * Up to the last one that can still be taken back: what was changed since, or was undone in the text, is no step any more.
 */
export function standing(past: readonly Writing[], textOf: (path: string) => string): readonly Writing[] {
  return past.slice(0, past.findLastIndex((one) => takenBack(textOf(one.path), one) !== undefined) + 1)
}

/** The text without what was written; undefined where that piece is not there any more, or is there twice. */
export function takenBack(text: string, { before, after }: Writing): string | undefined {
  if (text === before) return undefined
  if (text === after) return before
  const [start, endBefore, endAfter] = changedIn(before, after)
  const around = (length: number) => [
    after.slice(Math.max(0, start - length), start),
    after.slice(endAfter, endAfter + length),
  ]
  const written = after.slice(start, endAfter)
  let [length, [left = '', right = '']] = [AROUND, around(AROUND)]
  // Among items that are much alike it has to be told from what was there before.
  while (before.includes(left + written + right) && length < after.length) {
    length *= 2
    ;[left = '', right = ''] = around(length)
  }
  const piece = left + written + right
  const at = text.indexOf(piece)
  if (at < 0 || text.indexOf(piece, at + 1) >= 0) return undefined
  return text.slice(0, at) + left + before.slice(start, endBefore) + right + text.slice(at + piece.length)
}

/** By so many letters on each side, or more, it is known again. */
const AROUND = 24

/** Where two texts begin to differ, and where that ends in the one and in the other. */
export function changedIn(
  before: string,
  after: string,
): readonly [start: number, endBefore: number, endAfter: number] {
  const shorter = Math.min(before.length, after.length)
  let start = 0
  while (start < shorter && before[start] === after[start]) start++
  let end = 0
  while (end < shorter - start && before.at(-1 - end) === after.at(-1 - end)) end++
  return [start, before.length - end, after.length - end]
}
