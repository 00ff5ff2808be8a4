/**
 * The files of a zip, and a zip of files. What a zip says of itself is believed by nobody: its directory is held against
 * its entries, and unpacking stops where an entry has more than was said. Inflating is fflate's; the directory is read
 * here, since fflate's own reader checks neither sums nor ends, and knows no password.
 */

import { Inflate } from 'fflate'
import { MOST_OFFERED, MOST_PACK_BYTES } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { crc32 } from './crc32.ts'
import { isRefused, type OfferedFile, type Refused } from './offered.ts'
import { createZip, joined } from './zipMaking.ts'

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
/** The sizes stand behind what is packed (4.3.9), where nobody finds them without the directory. */
const SIZES_BEHIND = 0x0008
const STORED = 0
const DEFLATED = 8
/** High half of the attributes of an entry made on Unix: a symbolic link. */
const LINK = 0xa000
/** So much is inflated before it is counted again; deflate makes at most about a thousandfold of it. */
const PIECE_BYTES = 512

const CUT = 'The zip is cut short or damaged: copy or download it again.'

/** How large a zip may be, and how many files it may hold, with the words for it in a refusal. */
export interface ZipBounds {
  readonly mostBytes: number
  readonly mostFiles: number
  /** "one with a pack", "zip the folder of the pack alone". */
  readonly what: string
  readonly instead: string
}

const OF_A_PACK: ZipBounds = {
  mostBytes: MOST_PACK_BYTES,
  mostFiles: MOST_OFFERED,
  what: 'one with a pack',
  instead: 'zip the folder of the pack alone',
}

export function looksLikeZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b
}

/** Without the folders, which are in the paths. */
export function filesInZip(bytes: Uint8Array, bounds = OF_A_PACK): readonly OfferedFile[] | Refused {
  const { mostBytes, mostFiles, what, instead } = bounds
  if (bytes.length > mostBytes) {
    return { wrong: `The zip has ${megabytes(bytes.length)}; ${what} has at most ${megabytes(mostBytes)}.` }
  }
  if (!looksLikeZip(bytes)) return { wrong: 'This is no zip: it does not begin as one.' }
  const view = viewOf(bytes)
  const end = endOf(view)
  if (end === undefined) return { wrong: CUT, isCut: true }
  const count = view.getUint16(end + 10, true)
  const from = view.getUint32(end + 16, true)
  if (count === MANY || from === ELSEWHERE) {
    return { wrong: `The zip is in the form for very large files; ${instead}.` }
  }
  if (count > mostFiles) {
    return { wrong: `The zip holds ${count} files; at most ${mostFiles} are looked at. ${capital(instead)}.` }
  }
  const files: OfferedFile[] = []
  for (let at = from, left = count; left > 0; left--) {
    const entry = entryAt(bytes, view, at, end, instead)
    if (isRefused(entry)) return entry
    at += entry.length
    if (!entry.path.endsWith('/')) {
      files.push({ path: entry.path, size: entry.size, bytes: async () => unpacked(bytes, view, entry, from) })
    }
  }
  return files
}

/**
 * What is still there of a zip that has lost its end, and with it its directory: the files one after the other, as far as
 * each says of itself how long it is. Of the one in which it was cut, `cut` gives what there is, to be read with care.
 */
export function filesInCutZip(
  bytes: Uint8Array,
  mostFiles: number,
): { readonly files: readonly OfferedFile[]; readonly cut?: OfferedFile } {
  const view = viewOf(bytes)
  const files: OfferedFile[] = []
  for (let at = 0; at + LOCAL.length <= bytes.length && files.length < mostFiles; ) {
    if (view.getUint32(at, true) !== LOCAL.signature) break
    const flags = view.getUint16(at + 6, true)
    const [name, extra] = [view.getUint16(at + 26, true), view.getUint16(at + 28, true)]
    const start = at + LOCAL.length
    const entry = {
      path: nameIn(bytes.subarray(start, start + name), (flags & IN_UTF8) !== 0),
      method: view.getUint16(at + 8, true),
      sum: view.getUint32(at + 14, true),
      packedSize: view.getUint32(at + 18, true),
      size: view.getUint32(at + 22, true),
      offset: at,
      length: 0,
    }
    if ((flags & (ENCRYPTED | SIZES_BEHIND)) !== 0 || [entry.packedSize, entry.size].includes(ELSEWHERE)) break
    const from = start + name + extra
    if (from >= bytes.length) break
    const file = { path: entry.path, size: entry.size }
    if (from + entry.packedSize > bytes.length) {
      const rest = bytes.subarray(from)
      return { files, cut: { ...file, bytes: async () => beginningOf(rest, entry) } }
    }
    if (!entry.path.endsWith('/')) {
      files.push({ ...file, bytes: async () => unpacked(bytes, view, entry, bytes.length) })
    }
    at = from + entry.packedSize
  }
  return { files }
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

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

function entryAt(bytes: Uint8Array, view: DataView, at: number, end: number, instead: string): Entry | Refused {
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
    return { wrong: `The zip is in the form for very large files; ${instead}.` }
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

/** As much of a file as there is: it may end anywhere, and its sum cannot be held against it. */
function beginningOf(packed: Uint8Array, { path, method, size }: Entry): Uint8Array | Refused {
  const found = method === STORED ? packed : method === DEFLATED ? inflated(packed, size, false) : undefined
  return found === undefined || found === 'more' ? { wrong: `${quoted(path)} in the zip is damaged.` } : found
}

/**
 * Undefined where it is no deflated data, or ends too early, if it is to be `whole`; stops as soon as there is more than
 * was said.
 */
function inflated(packed: Uint8Array, size: number, whole = true): Uint8Array | 'more' | undefined {
  const chunks: Uint8Array[] = []
  let length = 0
  const inflate = new Inflate((chunk) => {
    length += chunk.length
    if (length <= size) chunks.push(chunk)
  })
  try {
    for (let at = 0; at < packed.length && length <= size; at += PIECE_BYTES) {
      inflate.push(packed.subarray(at, at + PIECE_BYTES), whole && at + PIECE_BYTES >= packed.length)
    }
  } catch {
    return length > size ? 'more' : undefined
  }
  return length > size ? 'more' : joined(chunks)
}

/** `files` by path; `folder` is put around them; `changedAt` in milliseconds since 1970. */
export function zipOf(files: Readonly<Record<string, string>>, folder: string, changedAt: number): Uint8Array {
  const zip = createZip(changedAt)
  for (const path of Object.keys(files).sort()) zip.add(`${folder}/${path}`, files[path] ?? '')
  return zip.end()
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function megabytes(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`
}
