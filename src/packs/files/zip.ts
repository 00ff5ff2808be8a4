/**
 * The files of a zip, and a zip of files. What a zip says of itself is believed by nobody: its directory is held against
 * its entries, and unpacking stops where an entry has more than was said. Inflating is fflate's; the directory is read
 * here, since fflate's own reader checks neither sums nor ends, and knows no password.
 */

import { Inflate, zipSync } from 'fflate'
import { MOST_OFFERED, MOST_PACK_BYTES } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { crc32 } from './crc32.ts'
import { isRefused, type OfferedFile, type Refused } from './offered.ts'

/** PKWARE, APPNOTE.TXT 6.3.10: local header (4.3.7), header of the directory (4.3.12), its end (4.3.16). */
const LOCAL = { signature: 0x04034b50, length: 30 }
const CENTRAL = { signature: 0x02014b50, length: 46 }
const END = { signature: 0x06054b50, length: 22 }
const LONGEST_COMMENT = 0xffff
/** Stands for a size or number that is said elsewhere, in the form for very large files (4.4.1.4). */
const ELSEWHERE = 0xffffffff
const MANY = 0xffff
const ENCRYPTED = 0x2041
const IN_UTF8 = 0x0800
const STORED = 0
const DEFLATED = 8
/** High half of the attributes of an entry made on Unix: a symbolic link. */
const LINK = 0xa000
/** So much is inflated before it is counted again; deflate makes at most about a thousandfold of it. */
const PIECE_BYTES = 512

const CUT = 'The zip is cut short or damaged: copy or download it again.'

export function looksLikeZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b
}

/** Without the folders, which are in the paths. */
export function filesInZip(bytes: Uint8Array): readonly OfferedFile[] | Refused {
  if (bytes.length > MOST_PACK_BYTES) {
    return {
      wrong: `The zip has ${megabytes(bytes.length)}; one with a pack has at most ${megabytes(MOST_PACK_BYTES)}.`,
    }
  }
  if (!looksLikeZip(bytes)) return { wrong: 'This is no zip: it does not begin as one.' }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const end = endOf(view)
  if (end === undefined) return { wrong: CUT }
  const count = view.getUint16(end + 10, true)
  const from = view.getUint32(end + 16, true)
  if (count === MANY || from === ELSEWHERE) {
    return { wrong: 'The zip is in the form for very large files; zip the folder of the pack alone.' }
  }
  if (count > MOST_OFFERED) {
    return {
      wrong: `The zip holds ${count} files; at most ${MOST_OFFERED} are looked at. Zip the folder of the pack alone.`,
    }
  }
  const files: OfferedFile[] = []
  for (let at = from, left = count; left > 0; left--) {
    const entry = entryAt(bytes, view, at, end)
    if (isRefused(entry)) return entry
    at += entry.length
    if (!entry.path.endsWith('/')) {
      files.push({ path: entry.path, size: entry.size, bytes: async () => unpacked(bytes, view, entry, from) })
    }
  }
  return files
}

/** Where the end of the directory begins; undefined where there is none. */
function endOf(view: DataView): number | undefined {
  const last = view.byteLength - END.length
  for (let at = last; at >= Math.max(0, last - LONGEST_COMMENT); at--) {
    if (view.getUint32(at, true) !== END.signature) continue
    const [size, from] = [view.getUint32(at + 12, true), view.getUint32(at + 16, true)]
    if (from === ELSEWHERE || from + size <= at) return at
  }
  return undefined
}

interface Entry {
  readonly path: string
  readonly method: number
  readonly sum: number
  readonly packedSize: number
  readonly size: number
  /** Where its local header stands. */
  readonly offset: number
  /** Of its line in the directory. */
  readonly length: number
}

function entryAt(bytes: Uint8Array, view: DataView, at: number, end: number): Entry | Refused {
  if (at + CENTRAL.length > end || view.getUint32(at, true) !== CENTRAL.signature) return { wrong: CUT }
  const flags = view.getUint16(at + 8, true)
  const [name, extra, comment] = [28, 30, 32].map((field) => view.getUint16(at + field, true)) as [
    number,
    number,
    number,
  ]
  const length = CENTRAL.length + name + extra + comment
  if (at + length > end) return { wrong: CUT }
  const start = at + CENTRAL.length
  const path = nameIn(bytes.subarray(start, start + name), (flags & IN_UTF8) !== 0)
  const entry = {
    ...{ path, length },
    method: view.getUint16(at + 10, true),
    sum: view.getUint32(at + 16, true),
    packedSize: view.getUint32(at + 20, true),
    size: view.getUint32(at + 24, true),
    offset: view.getUint32(at + 42, true),
  }
  if ((flags & ENCRYPTED) !== 0) return { wrong: 'The zip is encrypted; make one without a password.' }
  if ([entry.packedSize, entry.size, entry.offset].includes(ELSEWHERE)) {
    return { wrong: 'The zip is in the form for very large files; zip the folder of the pack alone.' }
  }
  if (((view.getUint32(at + 38, true) >>> 16) & 0xf000) === LINK) {
    return { wrong: `${quoted(path)} in the zip is a link, not a file; put the file itself there.` }
  }
  return entry
}

/** Names that say nothing of their letters are UTF-8 mostly; where they are not, each byte stands for a letter. */
function nameIn(bytes: Uint8Array, isUtf8: boolean): string {
  try {
    return new TextDecoder('utf-8', { fatal: !isUtf8 }).decode(bytes)
  } catch {
    return new TextDecoder('latin1').decode(bytes)
  }
}

/** `directory`: where it begins, and no entry reaches. */
function unpacked(bytes: Uint8Array, view: DataView, entry: Entry, directory: number): Uint8Array | Refused {
  const { path, method, offset, packedSize, size, sum } = entry
  const damaged = { wrong: `${quoted(path)} in the zip is damaged: copy or download the zip again.` }
  if (offset + LOCAL.length > directory || view.getUint32(offset, true) !== LOCAL.signature) return damaged
  const from = offset + LOCAL.length + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true)
  if (from + packedSize > directory) return damaged
  const packed = bytes.subarray(from, from + packedSize)
  if (method !== STORED && method !== DEFLATED) {
    return {
      wrong: `${quoted(path)} in the zip is packed in an unusual way; zip the folder again with the usual settings.`,
    }
  }
  const found = method === STORED ? packed : inflated(packed, size)
  if (found === 'more') {
    return { wrong: `${quoted(path)} in the zip unpacks to more than the zip says; it was not read.` }
  }
  return found?.length === size && crc32(found) === sum ? found : damaged
}

/** Undefined where it is no deflated data, or ends too early; stops as soon as there is more than was said. */
function inflated(packed: Uint8Array, size: number): Uint8Array | 'more' | undefined {
  const chunks: Uint8Array[] = []
  let length = 0
  const inflate = new Inflate((chunk) => {
    length += chunk.length
    if (length <= size) chunks.push(chunk)
  })
  try {
    for (let at = 0; at < packed.length && length <= size; at += PIECE_BYTES) {
      inflate.push(packed.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= packed.length)
    }
  } catch {
    return length > size ? 'more' : undefined
  }
  if (length > size) return 'more'
  const whole = new Uint8Array(length)
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}

/** A zip knows no earlier time (4.4.6), and a clock may be wrong. */
const EARLIEST = Date.UTC(1980, 0, 2)

/** `files` by path; `folder` is put around them; `changedAt` in milliseconds since 1970. */
export function zipOf(files: Readonly<Record<string, string>>, folder: string, changedAt: number): Uint8Array {
  const encoder = new TextEncoder()
  const entries = Object.keys(files)
    .sort()
    .map((path) => [`${folder}/${path}`, encoder.encode(files[path])] as const)
  return zipSync(Object.fromEntries(entries), { mtime: Math.max(changedAt, EARLIEST) })
}

function megabytes(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`
}
