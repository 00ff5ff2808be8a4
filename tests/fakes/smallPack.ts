/** A pack as somebody might write it at home: one aircraft, one list, nothing looked up. All of it is invented. */

import type { OwnPack } from '../../src/ports.ts'

export const SMALL_PACK: Readonly<Record<string, string>> = {
  'pack.yaml': `id: wren
name: Wren
version: 1.0.0
aircraft: Wren, a glider with a motor (invented)
operator: At home
caution: For training and simulation only, on an invented aircraft. Not for use in flight or on a real aircraft.
units: {weight: kg, arm: m}
`,
  'figures.yaml': `stations: {}
figures:
  fuel: {label: fuel on board, kind: weight, unit: kg, entered: {group: Fuel, plausible: {min: 0, max: 60}}}
  runway: {label: runway, kind: runway, entered: {group: Field}}
`,
  'procedures.yaml': `# One list.
phases:
  - phase: before
    name: Before takeoff
    activities:
      - list: takeoff
        name: before takeoff
        alsoCalled: [before takeoff list]
        entries:
          - {item: fuel, challenge: fuel on board, response: "<fuel> [kilograms]"}
          - {item: canopy, challenge: canopy, response: closed and locked}
          - {item: runway, challenge: runway, response: "[runway] <runway>"}
`,
  'inputs/today.yaml': `status: final
values: {fuel: 24, runway: "09"}
`,
}

/** As it is kept, with one text changed. */
export function ownPack(path = 'pack.yaml', text = SMALL_PACK[path] ?? ''): OwnPack {
  return {
    key: 'wren',
    files: { ...SMALL_PACK, [path]: text },
    label: 'Wren from home',
    changedAt: Date.UTC(2000, 0, 1, 12),
  }
}

const encoder = new TextEncoder()

/** Its files, or these, as a person hands them in. */
export function offeredOf(files: Readonly<Record<string, string | Uint8Array>>) {
  return Object.entries(files).map(([path, content]) => {
    const bytes = typeof content === 'string' ? encoder.encode(content) : content
    return { path, size: bytes.length, bytes: async () => bytes }
  })
}
