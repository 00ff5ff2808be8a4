/** Packs, sheets and logs with something wrong in them, drawn by a number: the same number draws the same mistakes. */

import { type Seeded, seeded } from '../../src/kernel/seeded.ts'

/** What people, editors and malice put where it does not belong. */
const ODD_TEXTS = [
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', '__proto__: {polluted: 1}', 'prototype'],
  ...['.inf', '-.inf', '.nan', '1e308', '-1e308', '1e-320', '0x7fffffff', '99999999999999999999', '-0', '1,5', '"'],
  ...["'", '[', ']', '{', '}', '[[', '}}', ': ', ':', '- ', '-', '|', '>', '&a ', '*a', '&a [*a]', '!!binary ', '!x '],
  ...[
    '---\n',
    '...\n',
    '%YAML 9\n',
    '\t',
    '\n',
    '\r\n',
    '\u0000',
    '\u0007',
    '\u202e',
    '\ufeff',
    '\ud800',
    'é',
    '😀',
    '#',
    ' #',
  ],
  ...[
    '? ',
    '<<: ',
    '~',
    'null',
    'true',
    'yes',
    '<',
    '>',
    '<trim>',
    '<nosuch>',
    '(',
    ')',
    '|',
    '{tag}',
    '*',
    '+',
    '/2/',
  ],
  ...[
    'x'.repeat(5_000),
    '['.repeat(200),
    '- '.repeat(200),
    `(${'a|'.repeat(300)}a)`,
    '[a] '.repeat(200),
    '\\u0041',
    '\\x',
  ],
]

type Change = (text: string, chance: Seeded) => string

function slice(text: string, chance: Seeded, most = 60): [from: number, to: number] {
  const from = chance.below(text.length + 1)
  return [from, Math.min(text.length, from + chance.below(most))]
}

function lineChange(change: (lines: string[], at: number, chance: Seeded) => void): Change {
  return (text, chance) => {
    const lines = text.split('\n')
    change(lines, chance.below(lines.length), chance)
    return lines.join('\n')
  }
}

const CHANGES: readonly Change[] = [
  (text, chance) => {
    const [from, to] = slice(text, chance)
    return text.slice(0, from) + text.slice(to)
  },
  (text, chance) => {
    const [from, to] = slice(text, chance)
    return text.slice(0, to) + text.slice(from)
  },
  (text, chance) => {
    const [from, to] = slice(text, chance, 12)
    return text.slice(0, from) + chance.pick(ODD_TEXTS) + text.slice(to)
  },
  (text, chance) => {
    const [from] = slice(text, chance)
    return text.slice(0, from) + chance.pick(ODD_TEXTS) + text.slice(from)
  },
  // One name or value in place of another.
  (text, chance) => {
    const words = text.match(/[A-Za-z0-9.]+/g) ?? ['']
    return text.replace(chance.pick(words), () => chance.pick([...ODD_TEXTS, ...words.slice(0, 40)]))
  },
  (text, chance) => text.slice(0, chance.below(text.length + 1)),
  lineChange((lines, at) => lines.splice(at, 1)),
  lineChange((lines, at) => lines.splice(at, 0, lines[at] ?? '')),
  lineChange((lines, at, chance) => {
    lines[at] = ' '.repeat(chance.below(12)) + (lines[at] ?? '').trimStart()
  }),
  lineChange((lines, at, chance) => {
    const [line] = lines.splice(at, 1)
    lines.splice(chance.below(lines.length + 1), 0, line ?? '')
  }),
]

/** A text with one to three mistakes. */
export function mistaken(text: string, seed: number): string {
  const chance = seeded(seed)
  let changed = text
  for (let left = 1 + chance.below(3); left > 0; left--) changed = chance.pick(CHANGES)(changed, chance)
  return changed
}

const ODD_VALUES: readonly unknown[] = [
  ...[
    null,
    true,
    0,
    -1,
    1e308,
    -1e308,
    1.5,
    '',
    'x'.repeat(5_000),
    '__proto__',
    'constructor',
    'toString',
    'a\nb\u001b[2J',
  ],
  ...[
    [],
    {},
    [[]],
    { length: 3 },
    { toString: 1 },
    { constructor: null },
    JSON.parse('{"__proto__": {"polluted": 1}}'),
  ],
]

/** A log in JSON Lines with something else in the place of one of its values, or a mistake in its text. */
export function mistakenLog(events: readonly unknown[], seed: number): string {
  const chance = seeded(seed)
  const lines = events.map((event) => JSON.stringify(event))
  if (chance.below(3) === 0) return mistaken(`${lines.join('\n')}\n`, seed)
  const at = chance.below(lines.length)
  lines[at] = JSON.stringify(otherwise(JSON.parse(lines[at] ?? 'null'), chance))
  return `${lines.join('\n')}\n`
}

/** A value with one of its parts, at any depth, taken out, doubled or replaced. */
function otherwise(value: unknown, chance: Seeded): unknown {
  if (typeof value !== 'object' || value === null || chance.below(6) === 0) return chance.pick(ODD_VALUES)
  if (Array.isArray(value)) {
    const at = chance.below(value.length + 1)
    return value.toSpliced(at, 1, otherwise(value[at], chance))
  }
  const entries = Object.entries(value)
  const [name, inner] = entries.length === 0 ? ['x', 1] : chance.pick(entries)
  const rest = entries.filter(([other]) => other !== name)
  if (chance.below(4) === 0) return Object.fromEntries(rest)
  const called = chance.below(8) === 0 ? chance.pick(['__proto__', 'constructor', 'x', '']) : name
  return Object.fromEntries([...rest, [called, otherwise(inner, chance)]])
}
