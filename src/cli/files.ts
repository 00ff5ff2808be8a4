/** Files that people name on the command line, read with care: what keeps one from being read is a line with its name. */

import { lstat, open } from 'node:fs/promises'
import { MOST_FILE_BYTES } from '../kernel/bounds.ts'
import { ownOf } from '../kernel/own.ts'

/** `wrong` goes on behind the file's name: "no such file". */
export type ReadFile = { readonly text: string } | { readonly wrong: string }

export interface Limits {
  readonly mostBytes: number
  /** What is not UTF-8 is read as a mark in its place: a file that was cut may end in the middle of a character. */
  readonly mayBeCut: boolean
}

/** Reads no more than it may hold, so that what never ends (a device, a pipe) is refused as well. */
export async function readTextFile(
  file: string,
  { mostBytes, mayBeCut }: Limits = { mostBytes: MOST_FILE_BYTES, mayBeCut: false },
): Promise<ReadFile> {
  try {
    const bytes = await bytesOf(file, mostBytes)
    if (bytes.length > mostBytes) return { wrong: `larger than ${Math.round(mostBytes / 1_000)} kB, and not read` }
    return { text: new TextDecoder('utf-8', { fatal: !mayBeCut }).decode(bytes) }
  } catch (error) {
    return { wrong: await whyUnreadable(file, error) }
  }
}

async function bytesOf(file: string, most: number): Promise<Uint8Array> {
  const handle = await open(file, 'r')
  try {
    const chunks: Uint8Array[] = []
    let length = 0
    while (length <= most) {
      const { bytesRead, buffer } = await handle.read({ buffer: new Uint8Array(65_536) })
      if (bytesRead === 0) break
      chunks.push(buffer.subarray(0, bytesRead))
      length += bytesRead
    }
    return Buffer.concat(chunks)
  } finally {
    await handle.close()
  }
}

/** What the system says, in other words than its codes. */
const WORDS: Readonly<Record<string, string>> = {
  EISDIR: 'a folder, not a file',
  ENOTDIR: 'no folder on the way to it',
  EACCES: 'not allowed to be read',
  EPERM: 'not allowed to be read',
  ELOOP: 'a link that leads back to itself',
  ENAMETOOLONG: 'a name that is too long',
  ENOSPC: 'no space is left',
  ERR_ENCODING_INVALID_ENCODED_DATA: 'not UTF-8 text; save it as UTF-8',
}

/** Why a file cannot be read, to go on behind its name. */
export async function whyUnreadable(file: string, error: unknown): Promise<string> {
  const { code = '', message } = error as NodeJS.ErrnoException
  if (code !== 'ENOENT') return ownOf(WORDS, code) ?? `cannot be read (${code || message})`
  const isLink = await lstat(file).then(
    (stats) => stats.isSymbolicLink(),
    () => false,
  )
  return isLink ? 'a link to a file that is not there' : 'no such file'
}

/** The same for what is not about a file at hand; undefined for what the system did not say. */
export function systemWords(code: string): string | undefined {
  return ownOf(WORDS, code)
}
