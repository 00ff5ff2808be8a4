import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const rows = readFileSync('tests/requirements.md', 'utf8')
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .filter(([, number]) => /^\d+$/.test(number ?? ''))

describe('the table of requirements', () => {
  it('has every number once, in order', () => {
    expect(rows.map(([, number]) => Number(number))).toEqual(Array.from({ length: 31 }, (_, index) => index + 1))
  })

  it.each(rows.map((cells) => [cells[1], cells[4] ?? ''] as const))(
    'requirement %s names tests that exist, or why it does not apply',
    (_, shown) => {
      const named = [...shown.matchAll(/`(tests\/[^`]+)`: "([^"]+)"/g)]
      if (named.length === 0) expect(shown).toMatch(/^does not apply/)
      for (const [, file, name] of named) expect(readFileSync(file ?? '', 'utf8')).toContain(name)
    },
  )
})
