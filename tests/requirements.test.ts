/** The table of requirements against the tests that it names: each must be declared under that very name, and run. */

import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const rows = readFileSync('tests/requirements.md', 'utf8')
  .split('\n')
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .filter(([, number]) => /^\d+$/.test(number ?? ''))

/** Texts between quotes, as the names of tests are; comments do not count. */
function literalsIn(text: string): readonly string[] {
  const code = text.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '')
  return [...code.matchAll(/'((?:[^'\\\n]|\\.)*)'|"((?:[^"\\\n]|\\.)*)"|`([^`]*)`/g)].map(
    ([, one, other, template]) => one ?? other ?? template ?? '',
  )
}

describe('the table of requirements', () => {
  it('has every number once, in order', () => {
    expect(rows.map(([, number]) => Number(number))).toEqual(Array.from({ length: 31 }, (_, index) => index + 1))
  })

  it.each(rows.map((cells) => [cells[1], cells[4] ?? ''] as const))(
    'requirement %s names tests that are there and run, or why it does not apply',
    (_, shown) => {
      const named = [...shown.matchAll(/`(tests\/[^`]+)`: "([^"]+)"/g)]
      expect(named.length > 0 || /^does not apply/.test(shown)).toBe(true)
      for (const [, file = '', name = ''] of named) {
        const text = readFileSync(file, 'utf8')
        // A row of a table is named in front: "of %s is the same ...".
        expect(literalsIn(text).some((literal) => literal === name || literal.endsWith(` ${name}`))).toBe(true)
        expect(text).not.toMatch(/\b(it|test|describe)\.(skip|todo|fails|only)\b/)
      }
    },
  )
})
