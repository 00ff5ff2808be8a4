/**
 * From files that a person hands in to the files of one pack, all or nothing. Everything is looked at before anything is
 * read, only names that a pack has are read, and the others are told. Whether the pack is right is another question
 * (`inspect.ts`): one with mistakes in it is kept as well.
 */

import { MOST_FILE_BYTES, MOST_FILES, MOST_NAMED, MOST_OFFERED, MOST_PACK_BYTES } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { nearest } from '../nearest.ts'
import { PACK_FILES } from '../read.ts'
import { isRefused, type OfferedFile, type Refused } from './offered.ts'
import { isSheet, type PackTexts, sheetPath } from './parts.ts'
import { pathFault } from './paths.ts'
import { filesInZip, looksLikeZip } from './zip.ts'

export interface Bundle {
  readonly files: PackTexts
  /** What the pack was called where it came from: its folder, or the zip; empty where it had no name. */
  readonly label: string
  /** What was not read, each in one sentence. */
  readonly told: readonly string[]
}

const KNOWN: readonly string[] = PACK_FILES
const RIGHT = 'pack.yaml, figures.yaml and procedures.yaml would be right, in a zip or chosen together'
/** What systems put into folders and zips of their own accord. */
const OF_SYSTEMS = /(^|\/)(__MACOSX\/|\.|Thumbs\.db$|desktop\.ini$)/i

/** One zip, or files that stand for themselves. */
export async function readBundle(offered: readonly OfferedFile[]): Promise<Bundle | Refused> {
  const zips = offered.filter(({ path }) => /\.zip$/i.test(path))
  const [only] = offered
  if (!only) return { wrong: `There is no file in it; ${RIGHT}.` }
  if (zips.length > 0 && offered.length > 1) {
    return { wrong: 'A zip and other files came together; import one zip, or the files of one pack, at a time.' }
  }
  return zips.length === 0 ? bundleOf(offered) : unzipped(only)
}

async function unzipped(zip: OfferedFile): Promise<Bundle | Refused> {
  if (zip.size > MOST_PACK_BYTES) return tooLarge(zip, MOST_PACK_BYTES)
  const bytes = await zip.bytes()
  if (isRefused(bytes)) return bytes
  if (!looksLikeZip(bytes)) return { wrong: `${quoted(zip.path)} is no zip, whatever its name says.` }
  const files = filesInZip(bytes)
  if (isRefused(files)) return files
  const bundle = await bundleOf(files)
  if (isRefused(bundle) || bundle.label !== '') return bundle
  return { ...bundle, label: zip.path.replace(/^.*\//, '').replace(/\.zip$/i, '') }
}

async function bundleOf(all: readonly OfferedFile[]): Promise<Bundle | Refused> {
  if (all.length > MOST_OFFERED) {
    return {
      wrong: `There are ${all.length} files; at most ${MOST_OFFERED} are looked at. Choose the folder of the pack alone.`,
    }
  }
  const wrong = all.map(({ path }) => pathFault(path)).find((fault) => fault !== undefined)
  if (wrong !== undefined) return { wrong }
  const offered = all.filter(({ path }) => !OF_SYSTEMS.test(path))
  const root = rootOf(offered.map(({ path }) => path))
  if (typeof root !== 'string') return root
  const inside = await Promise.all(offered.map((file) => insideOf(root, file)))
  const known = inside.filter(({ isRead }) => isRead)
  const fault = countFault(known.map(({ name }) => name)) ?? sizeFault(known.map(({ file }) => file))
  if (fault) return fault
  const files: [string, string][] = []
  for (const { file, name } of known) {
    const text = await textOf(file)
    if (typeof text !== 'string') return text
    files.push([name, text])
  }
  const others = inside.filter(({ isRead }) => !isRead).map(({ name }) => name)
  return { files: Object.fromEntries(files), label: root.split('/').at(-2) ?? '', told: notRead(others) }
}

/**
 * The name of a file inside the pack. Files that were chosen one by one come without their folders: beside the pack's own
 * one that begins like a sheet is one of its example sheets.
 */
async function insideOf(
  root: string,
  file: OfferedFile,
): Promise<{ file: OfferedFile; name: string; isRead: boolean }> {
  if (!file.path.startsWith(root)) return { file, name: file.path, isRead: false }
  const name = file.path.slice(root.length)
  const isRead = isKnown(name)
  const mayBeSheet = !isRead && /^[^/]+\.yaml$/.test(name) && file.size <= MOST_FILE_BYTES
  const text = mayBeSheet ? await textOf(file) : undefined
  return typeof text === 'string' && /^status:/m.test(text)
    ? { file, name: `inputs/${name}`, isRead: true }
    : { file, name, isRead }
}

/** The folder that the pack lies in, with "/" behind it; empty where it lies in none. */
function rootOf(paths: readonly string[]): string | Refused {
  const folders = paths.flatMap((path) => {
    const name = KNOWN.find((known) => path === known || path.endsWith(`/${known}`))
    return name === undefined ? [] : [path.slice(0, path.length - name.length)]
  })
  const depth = Math.min(...folders.map((folder) => folder.split('/').length))
  const [root, second] = new Set(folders.filter((folder) => folder.split('/').length === depth))
  if (root === undefined) return { wrong: `There is no file of a pack in it; ${RIGHT}.` }
  if (second === undefined) return root
  return { wrong: `There are files of packs in ${quoted(root)} and in ${quoted(second)}; import one pack at a time.` }
}

function isKnown(name: string): boolean {
  return KNOWN.includes(name) || isSheet(name)
}

function countFault(names: readonly string[]): Refused | undefined {
  const twice = names.find((name, index) => names.indexOf(name) !== index)
  if (twice !== undefined) return { wrong: `${quoted(twice)} is there twice; one of them should go.` }
  if (!names.some((name) => KNOWN.includes(name))) return { wrong: `There is no file of a pack in it; ${RIGHT}.` }
  const inputs = names.filter(isSheet).length
  return inputs > MOST_FILES
    ? { wrong: `There are ${inputs} files in inputs/; at most ${MOST_FILES} are read.` }
    : undefined
}

function sizeFault(files: readonly OfferedFile[]): Refused | undefined {
  const large = files.find(({ size }) => size > MOST_FILE_BYTES)
  if (large) return tooLarge(large, MOST_FILE_BYTES)
  const all = files.reduce((sum, { size }) => sum + size, 0)
  if (all <= MOST_PACK_BYTES) return undefined
  return {
    wrong: `The files of the pack have ${kilobytes(all)} together; at most ${kilobytes(MOST_PACK_BYTES)} are read.`,
  }
}

function tooLarge({ path, size }: OfferedFile, most: number): Refused {
  return { wrong: `${quoted(path)} has ${kilobytes(size)}; at most ${kilobytes(most)} are read.` }
}

async function textOf(file: OfferedFile): Promise<string | Refused> {
  const bytes = await file.bytes()
  if (isRefused(bytes)) return bytes
  // A file can have grown since its size was asked for.
  if (bytes.length > MOST_FILE_BYTES) return tooLarge({ ...file, size: bytes.length }, MOST_FILE_BYTES)
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return { wrong: `${quoted(file.path)} is not UTF-8 text; save it as UTF-8.` }
  }
}

/** The first few by name. */
function notRead(others: readonly string[]): string[] {
  const told = others.slice(0, MOST_NAMED).map((name) => {
    const meant = nearest(name, KNOWN)
    const isInputs = /^inputs\/[^/]+\.ya?ml$/i.test(name)
    const right = meant ?? (isInputs ? name.replace(/\.ya?ml$/i, '.yaml') : undefined)
    return `${quoted(name)} was not read; ${right === undefined ? 'no file of a pack is called so' : `${right} would be right`}.`
  })
  const more = others.length - told.length
  return more > 0 ? [...told, `${more} more files were not read.`] : told
}

function kilobytes(bytes: number): string {
  return `${Math.round(bytes / 1_000)} kB`
}

/** What a text is by its first names, where it came without a name of its own: a paste, or a file of another name. */
const SIGNS: readonly (readonly [file: string, sign: RegExp])[] = [
  ['pack.yaml', /^(?=[\s\S]*^aircraft:)[\s\S]*^id:/m],
  ['procedures.yaml', /^phases:/m],
  ['figures.yaml', /^figures:/m],
  ['tables.yaml', /^tables:/m],
  ['papers.yaml', /^papers:/m],
  ['grading.yaml', /^competencies:/m],
  [sheetPath('pasted'), /^status:/m],
]

/** Before each file of several that are pasted as one text: "==> figures.yaml <==", as `tail -n +1 *.yaml` prints them. */
const HEADING = /^==> (.+) <==\r?\n/gm

/** A pasted text: one file, known by its names, or several under headings. */
export function pastedFiles(text: string): readonly OfferedFile[] | Refused {
  if (text.length > MOST_PACK_BYTES)
    return { wrong: `The text is too long; at most ${kilobytes(MOST_PACK_BYTES)} are read.` }
  const headings = [...text.matchAll(HEADING)]
  if (headings.length > 0) {
    return headings.map(({ 0: line, 1: path = '', index }, number) => {
      const next = headings[number + 1]
      // A line is left free before each heading but the first.
      const part = text.slice(index + line.length, next?.index)
      return offeredText(path, next ? part.replace(/\r?\n$/, '') : part)
    })
  }
  const file = SIGNS.find(([, sign]) => sign.test(text))?.[0]
  if (file !== undefined) return [offeredText(file, text)]
  return {
    wrong: `The text is no file of a pack: it has none of "phases:", "figures:", "tables:", "papers:", "id:" with "aircraft:", "status:" at the beginning of a line.`,
  }
}

function offeredText(path: string, text: string): OfferedFile {
  const bytes = new TextEncoder().encode(text)
  return { path, size: bytes.length, bytes: async () => bytes }
}
