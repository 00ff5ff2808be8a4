/** `npm run guide`: writes the tables of kinds, units, calculators and keys into the author's guide. */

import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { withTables } from './guideTables.ts'

const GUIDE = fileURLToPath(new URL('../../checklists/README.md', import.meta.url))
writeFileSync(GUIDE, withTables(readFileSync(GUIDE, 'utf8')))
