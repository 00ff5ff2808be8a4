/**
 * A zip made file by file, so that an archive of many need not lie in memory unpacked. Each file is packed by fflate as a
 * zip of its own, which says its sizes before what is packed: of a zip that was cut, the files before the cut can be read.
 * What is done here is to lay them one behind the other, with one directory at the end.
 */

import { zipSync } from 'fflate'

/** A zip knows no earlier time (PKWARE, APPNOTE.TXT 6.3.10, 4.4.6), and a clock may be wrong. */
const EARLIEST = Date.UTC(1980, 0, 2)
/** End of the directory (4.3.16): its length, and where its numbers, sizes and offset stand. */
const END = { length: 22, count: 8, countInAll: 10, size: 12, offset: 16 }
/** Where a line of the directory (4.3.12) says where its file begins. */
const OFFSET_IN_LINE = 42

export interface ZipMaking {
  add(path: string, content: string | Uint8Array): void
  /** So many, and their bytes so far. */
  size(): { readonly files: number; readonly bytes: number }
  /** The whole zip; nothing is added after it. */
  end(): Uint8Array
}

/** `changedAt` of all its files, in milliseconds since 1970. */
export function createZip(changedAt: number): ZipMaking {
  const mtime = Math.max(changedAt, EARLIEST)
  const encoder = new TextEncoder()
  const files: Uint8Array[] = []
  const lines: Uint8Array[] = []
  let length = 0
  return {
    size: () => ({ files: files.length, bytes: length }),
    add(path, content) {
      const bytes = typeof content === 'string' ? encoder.encode(content) : content
      const zip = zipSync({ [path]: bytes }, { mtime })
      const directory = new DataView(zip.buffer).getUint32(zip.length - END.length + END.offset, true)
      const line = zip.slice(directory, -END.length)
      new DataView(line.buffer).setUint32(OFFSET_IN_LINE, length, true)
      lines.push(line)
      files.push(zip.slice(0, directory))
      length += directory
    },
    end() {
      const end = zipSync({})
      const view = new DataView(end.buffer)
      view.setUint16(END.count, lines.length, true)
      view.setUint16(END.countInAll, lines.length, true)
      view.setUint32(
        END.size,
        lines.reduce((sum, line) => sum + line.length, 0),
        true,
      )
      view.setUint32(END.offset, length, true)
      return joined([...files, ...lines, end])
    },
  }
}

/** One behind the other. */
export function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0))
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}
