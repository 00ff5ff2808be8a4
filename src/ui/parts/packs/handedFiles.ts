/** Files from a file field, the clipboard or a drop, as an import takes them: nothing is read before it is wanted. */

import type { Actions } from '../../../app/actions/actions.ts'

type HandedFile = Parameters<Actions['importPack']>[0][number]

/** Of a folder that is dropped: far more than a pack has, and an end to one that was dropped by mistake. */
const MOST = 600
const DEEPEST = 8

export function chosenFiles(files: readonly File[]): HandedFile[] {
  return files.map((file) => handed(file, file.webkitRelativePath || file.name))
}

/** Texts by name, as an import takes files. */
export function writtenFiles(texts: Readonly<Record<string, string>>): HandedFile[] {
  return Object.entries(texts).map(([path, text]) => {
    const bytes = new TextEncoder().encode(text)
    return { path, size: bytes.length, bytes: async () => bytes }
  })
}

/** With the files of dropped folders. */
export async function droppedFiles({ items, files }: DataTransfer): Promise<HandedFile[]> {
  // All entries at once: when the drop is over, they cannot be had any more.
  const entries = [...items].map((item) => item.webkitGetAsEntry?.() ?? undefined)
  if (!entries.some((entry) => entry?.isDirectory)) return chosenFiles([...files])
  const found: HandedFile[] = []
  for (const entry of entries) if (entry) await collect(entry, '', 0, found)
  return found
}

async function collect(entry: FileSystemEntry, folder: string, depth: number, found: HandedFile[]): Promise<void> {
  if (found.length > MOST || depth > DEEPEST) return
  const path = `${folder}${entry.name}`
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject))
    found.push(handed(file, path))
    return
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader()
  // It gives them in parts, the last one empty.
  for (;;) {
    const part = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject))
    if (part.length === 0 || found.length > MOST) return
    for (const inner of part) await collect(inner, `${path}/`, depth + 1, found)
  }
}

function handed(file: File, path: string): HandedFile {
  return {
    path,
    size: file.size,
    async bytes() {
      try {
        return new Uint8Array(await file.arrayBuffer())
      } catch {
        return { wrong: `"${path}" cannot be read any more; choose it again.` }
      }
    },
  }
}
