/** The author's guide: its tables are those of the schemas, and its first pack is sound. */

import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { GUIDE_TABLES, withTables } from '../../src/build/guideTables.ts'
import { readPack } from '../../src/packs/read.ts'

const guide = readFileSync('checklists/README.md', 'utf8')

test('its tables are made from the schemas (npm run guide writes them)', () => {
  expect(withTables(guide)).toBe(guide)
})

test('they have every kind, unit, calculator and key', () => {
  const all = Object.values(GUIDE_TABLES).map((make) => make())
  for (const [index, name] of ['`wind`', '`ft lb`', '`ballast`', '**`challenge`**'].entries()) {
    expect(all[index]).toContain(name)
  }
})

test('a guide without a place for a table is told so', () => {
  expect(() => withTables('# Packs\n')).toThrow('the guide has no <!-- kinds: made by npm run guide -->')
})

test('the pack that it begins with is sound as it stands', () => {
  const texts = Object.fromEntries(
    [...guide.matchAll(/```yaml\n# (\w+\.yaml)\n([\s\S]*?)```/g)].map(([, file = '', text = '']) => [file, text]),
  )
  expect(Object.keys(texts)).toEqual(['pack.yaml', 'figures.yaml', 'procedures.yaml'])
  const { pack, problems } = readPack(texts, '', 'heron')
  expect(problems).toEqual([])
  expect(pack?.figures.declarations.fuel?.measure).toBe('lb')
})
