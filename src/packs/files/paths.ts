/** Which names of files, with the folders around them, are taken. */

import { LONGEST_PATH } from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import { isUsable } from '../yamlNodes.ts'

/** Paths are names here and never places; all the same, one that wants to be elsewhere means no good. */
export function pathFault(path: string): string | undefined {
  const shown = quoted(path)
  if (path.length > LONGEST_PATH) return `${shown} is longer than ${LONGEST_PATH} letters; give it a shorter name.`
  if (path.includes('\\')) return `${shown} has a backslash in its path; folders are parted by "/".`
  if (path.startsWith('/') || /^[A-Za-z]:/.test(path))
    return `${shown} has a path from the root of a disk; it should begin in the folder of the pack.`
  const parts = path.split('/')
  if (parts.includes('..') || parts.includes('.'))
    return `${shown} leads out of its folder; paths go without "." and "..".`
  if (parts.includes('')) return `${shown} has a folder without a name.`
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  if (/[\0-\x1f\x7f]/.test(path)) return `${shown} has a control character in its name; take it out.`
  const unusable = parts.find((part) => !isUsable(part) || !isUsable(part.replace(/\.[^.]*$/, '')))
  return unusable === undefined ? undefined : `${quoted(unusable)} cannot be a name here; choose another.`
}
