import { expect, test } from 'vitest'
import { showProblem } from '../../src/kernel/problemLine.ts'
import { quoted } from '../../src/kernel/quoted.ts'

test.each<[string | number, string]>([
  ['takeoffTrim', '"takeoffTrim"'],
  [5.2, '"5.2"'],
  [Number.NaN, '"NaN"'],
  ['', '""'],
  ['two\nlines\tand a bell\u0007', '"two\\nlines\\tand a bell\\u{7}"'],
  ['\u001b[31mred', '"\\u{1b}[31mred"'],
  ['left\u202eright', '"left\\u{202e}right"'],
  ['half a pair \ud800', '"half a pair \\u{d800}"'],
  ['x'.repeat(60), `"${'x'.repeat(60)}"`],
  ['x'.repeat(30_000), `"${'x'.repeat(60)}..." (30000 characters)`],
])('%j from outside is quoted as %s', (given, shown) => {
  expect(quoted(given)).toBe(shown)
})

test('a problem is told on one line, whatever stands in it', () => {
  const place = { file: 'a\nb.yaml', line: 1, column: 2 }
  expect(showProblem({ code: 'x', message: 'label\r\n"up"', place, severity: 'error' })).toBe(
    'a\\nb.yaml:1:2: label\\r\\n"up"',
  )
})
