/** Packs to begin with: the YAML files under `packs/starts/`, one folder each, loaded when asked for. */

import type { PackFiles } from '../ports.ts'
import { createPackFiles, type Glob } from './packFiles.ts'

const FILES: Glob = import.meta.glob<string>('../packs/starts/*/*.yaml', { query: '?raw', import: 'default' })

const EXAMPLES: Glob = import.meta.glob<string>('../packs/starts/*/inputs/*.yaml', { query: '?raw', import: 'default' })

export function createPackStarts(): PackFiles {
  return createPackFiles(FILES, EXAMPLES, {})
}
