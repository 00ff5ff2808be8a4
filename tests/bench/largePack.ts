/** A pack as large as an author's may get: 300 items that say 60 figures, in 30 lists. All of it is made up. */

const LISTS = 30
const ITEMS = 10
const FIGURES = 60
const NAMES = [
  'forward',
  'rear',
  'upper',
  'lower',
  'centre',
  'inner',
  'outer',
  'main',
  'nose',
  'tail',
  'cargo',
  'cabin',
]
const THINGS = ['doors', 'lever', 'panel', 'locks', 'lights', 'pumps', 'valves', 'heat', 'seats', 'belts']
const LETTERS = ['left', 'right', 'middle', 'alpha', 'bravo']

export const LARGE_PACK: Readonly<Record<string, string>> = {
  'pack.yaml': `id: large
name: Large
version: 1.0.0
aircraft: Large, an airliner (invented)
operator: Nobody
caution: For training and simulation only, on an invented aircraft. Not for use in flight or on a real aircraft.
units: {weight: kg, arm: m}
situations:
  icing: {label: icing conditions, initial: "no", options: {"yes": {label: "expected", say: [icing]}, "no": {label: none, say: [no icing]}}}
`,
  'figures.yaml': `stations: {}
figures:
${Array.from({ length: FIGURES }, (_, at) => `  figure${at}: ${figure(at)}`).join('\n')}
`,
  'procedures.yaml': `# Made up.
phases:
${Array.from({ length: LISTS }, (_, at) => list(at)).join('\n')}
`,
  'inputs/today.yaml': `status: final
values: {${Array.from({ length: FIGURES / 2 }, (_, at) => `figure${at}: ${at + 10}`).join(', ')}}
`,
}

function figure(at: number): string {
  const label = `label: ${NAMES[at % NAMES.length]} ${LETTERS[Math.floor(at / NAMES.length)]}`
  if (at < FIGURES / 2) return `{${label}, kind: integer, entered: {group: Figures, plausible: {min: 0, max: 900}}}`
  const from = at - FIGURES / 2
  return `{${label}, kind: integer, derived: {by: sum, of: [figure${from}, ${at}]}}`
}

function list(at: number): string {
  const name = `${NAMES[at % NAMES.length]} ${LETTERS[Math.floor(at / NAMES.length)]}`
  const items = Array.from({ length: ITEMS }, (_, index) => item(at, index))
  return `  - phase: phase${at}
    name: Phase ${name}
    activities:
      - list: list${at}
        name: ${name} checks
        entries:
${items.join('\n')}`
}

function item(list: number, index: number): string {
  const number = list * ITEMS + index
  const challenge = `${NAMES[(number * 7) % NAMES.length]} ${THINGS[index]}`
  const response =
    index % 5 === 0
      ? `"<figure${(number / 5) % FIGURES}> [set]"`
      : index % 3 === 0
        ? 'closed and locked'
        : `"set {lever} on {light}"`
  const more = index === 7 ? ', when: {icing: "yes"}' : index === 3 ? ', states: [[closed], [open]]' : ''
  return `          - {item: item${index}, challenge: ${challenge}, response: ${response}${more}} # as in the book`
}
