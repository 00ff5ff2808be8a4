/** A stream cut into lines, each bounded: memory stays small whatever comes. */

import type { Readable } from 'node:stream'
import { StringDecoder } from 'node:string_decoder'

/** `tooLong`: longer than was allowed; its text is not kept. */
export type Line = { readonly text: string } | { readonly tooLong: true }

/**
 * Lines end with a line feed, with or without a carriage return before it; the last one may end without. Yields all
 * lines of a piece of the stream together, as soon as it is there.
 */
export async function* linesOf(input: Readable, mostCharacters: number): AsyncGenerator<readonly Line[]> {
  const decoder = new StringDecoder('utf8')
  let open = ''
  let isTooLong = false
  const closed = (): Line => {
    const line: Line = isTooLong ? { tooLong: true } : { text: open.endsWith('\r') ? open.slice(0, -1) : open }
    open = ''
    isTooLong = false
    return line
  }
  const add = (text: string) => {
    isTooLong ||= open.length + text.length > mostCharacters
    open = isTooLong ? '' : open + text
  }
  for await (const chunk of input) {
    const pieces = (typeof chunk === 'string' ? chunk : decoder.write(chunk as Buffer)).split('\n')
    const lines: Line[] = []
    for (const [index, piece] of pieces.entries()) {
      if (index > 0) lines.push(closed())
      add(piece)
    }
    if (lines.length > 0) yield lines
  }
  add(decoder.end())
  if (open !== '' || isTooLong) yield [closed()]
}
