/** TUNING corpus: items, frames around answers, slips. Rules and thresholds were made looking at it. */

import type { Figure, Figures, Value } from '../../src/kernel/kinds/kind.ts'
import { type Case, type Random, seeded } from './case.ts'
import { isClear, makeFigure, type OnePieceKind, type Slip, sayFigure, slip } from './tuningValues.ts'

const CHALLENGES: Readonly<Record<OnePieceKind, readonly string[]>> = {
  decimal: ['torque', 'centre of gravity', 'N1'],
  trim: ['takeoff trim', 'stabiliser trim'],
  integer: ['passengers', 'brake temperature'],
  speed: ['approach speed', 'V1', 'final speed'],
  mach: ['cruise mach', 'climb speed'],
  weight: ['takeoff weight', 'fuel'],
  temperature: ['temperature', 'outside air temperature'],
  digits: ['transponder', 'squawk'],
  altimeter: ['altimeters', 'QNH'],
  heading: ['heading bug', 'heading'],
  runway: ['runway', 'departure runway'],
  altitude: ['altitude', 'cleared altitude'],
  flightLevel: ['cruise level', 'transition level'],
  frequency: ['tower frequency', 'COM 1'],
  time: ['off blocks', 'takeoff time'],
  identifier: ['information', 'stand', 'taxi route'],
  choice: ['flaps', 'takeoff flap'],
}
const KINDS = Object.keys(CHALLENGES) as OnePieceKind[]

const BEFORE = [
  '',
  '',
  '',
  '',
  'uh ',
  'okay ',
  'um, ',
  "that's ",
  'we have ',
  "it's ",
  'and ',
  'checked, ',
  'set to ',
  'yes, ',
  'roger, ',
]
const AFTER = ['', '', '', '', ' set', ' checked', ', set', ' thank you', ' confirmed', ', checked and set']

function frame(text: string, challenge: string, random: Random): string {
  const echo = random.chance(0.2) ? `${challenge} ` : ''
  const is = echo && random.chance(0.3) ? 'is ' : ''
  const before = random.of(BEFORE)
  return `${echo}${is}${before}${text}${random.of(AFTER)}`
}

function single(
  kind: OnePieceKind,
  random: Random,
): { challenge: string; figures: Figures; figure: Figure; response: string } {
  const figure = makeFigure(kind, random)
  const response = random.of(['<it>', '<it> [set]', '<it> [set]', '[set] <it>'])
  return { challenge: random.of(CHALLENGES[kind]), figures: { it: figure }, figure, response }
}

function rightNumber(random: Random): Case {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const said = sayFigure(figure, random)
  const twice = random.chance(0.03) ? `${said}, that's ${said}` : said
  let heard = frame(twice, challenge, random)
  let why = figure.kind as string
  if (random.chance(0.05)) {
    const value = slip(figure, 'changed', random)
    if (value !== undefined && isClear(figure, value)) {
      heard = `${sayFigure(withValue(figure, value), random)}, correction, ${said}`
      why += ' corrected'
    }
  }
  return { input: { challenge, response, figures, heard }, truth: 'right', why }
}

const withValue = (figure: Figure, value: Value): Figure => ({ ...figure, value })
const SLIPS: readonly Slip[] = ['changed', 'changed', 'swapped', 'dropped', 'doubled', 'turned']

function wrongNumber(random: Random): Case | undefined {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const how = random.of(SLIPS)
  const value = slip(figure, how, random)
  if (value === undefined || value === '') return undefined
  const clear = isClear(figure, value)
  if (!clear && (figure.kind === 'runway' || figure.kind === 'altitude')) return undefined
  const heard = frame(sayFigure(withValue(figure, value), random), challenge, random)
  const why = `${figure.kind} ${how}`
  return { input: { challenge, response, figures, heard }, truth: 'wrong', why, ...(clear ? { part: 'it' } : {}) }
}

function truncated(random: Random): Case | undefined {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const said = sayFigure(figure, random)
  const words = said.split(' ')
  const harmless =
    /^(knots|degrees|celsius|percent|feet|hectopascals|kilos|kilograms|nose|units|left|right|center|up|down)$/
  if (words.length < 2 || words.some((word) => harmless.test(word))) return undefined
  if (figure.kind === 'choice' || /^(1000|[1-9]00|[1-9]000)$/.test(String(figure.value))) return undefined
  const cut = random.chance(0.5) ? words.slice(0, -1) : words.slice(1)
  if (
    /^(heading|runway|flight|level|plus|oh|zero)$/.test(words[0] ?? '') &&
    cut.length === words.length - 1 &&
    cut[0] !== words[0]
  )
    return undefined
  if (/[.]0$|^0[.]|^-?\d+$/.test(String(figure.value)) && (figure.kind === 'decimal' || figure.kind === 'frequency'))
    return undefined
  if (figure.kind === 'trim') return undefined
  // Neither "mach" nor the point need be said, nor a zero at the end.
  if (figure.kind === 'mach' && (cut[0] !== words[0] || /zero|oh|0$/.test(words.at(-1) ?? ''))) return undefined
  const last = words.at(-1) ?? ''
  if (/zero|oh|^0/.test(last) && figure.kind === 'frequency') return undefined
  return {
    input: { challenge, response, figures, heard: cut.join(' ') },
    truth: 'wrong',
    why: `${figure.kind} truncated`,
  }
}

function twoValues(random: Random): Case | undefined {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const value = slip(figure, 'changed', random)
  if (value === undefined || !isClear(figure, value)) return undefined
  // Commas are not heard, and "plus zero three" is three degrees.
  if (figure.kind === 'temperature' && (value === 0 || figure.value === 0)) return undefined
  const pair = [sayFigure(figure, random), sayFigure(withValue(figure, value), random)]
  if (random.chance(0.5)) pair.reverse()
  const heard = pair.join(random.of([' ', ', ', ' and ', ' or ', ' no ', ' uh ', ' wait ', ' set ']))
  return { input: { challenge, response, figures, heard }, truth: 'wrong', why: `${figure.kind} two values` }
}

function negated(random: Random): Case {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const said = sayFigure(figure, random)
  const heard = random.of([
    `not ${said}`,
    `it's not ${said}`,
    `${said} not`,
    `negative ${said}`,
    `${said} is not set`,
    `never ${said}`,
  ])
  return { input: { challenge, response, figures, heard }, truth: 'wrong', why: `${figure.kind} negated` }
}

function otherKind(random: Random): Case | undefined {
  const { challenge, figures, figure, response } = single(random.of(KINDS), random)
  const other = makeFigure(random.of(KINDS.filter((kind) => kind !== figure.kind)), random)
  // "One" is runway 01, and "eight zero" is Mach .8.
  const bare = ({ value }: Figure) =>
    String(value)
      .replace(/\D/g, '')
      .replace(/^0+|0+$/g, '')
  if (bare(other) === bare(figure)) return undefined
  const heard = sayFigure(other, random)
  return { input: { challenge, response, figures, heard }, truth: 'wrong', why: `${figure.kind} ${other.kind} said` }
}

/** Challenge, response, right answers, wrong answers with the part that is wrong. */
const WORD_ITEMS: readonly {
  readonly challenge: string
  readonly response: string
  readonly states?: readonly (readonly string[])[]
  readonly right: readonly string[]
  readonly wrong: readonly (readonly [string, string?])[]
}[] = [
  {
    challenge: 'spoilers',
    response: '(armed | on)',
    right: ['armed', 'on', 'spoilers armed', 'arm'],
    wrong: [
      ['disarmed', 'armed'],
      ['not armed', 'armed'],
      ['off', 'armed'],
      ['unarmed', 'armed'],
      ['armed off'],
      ['on off'],
      ['retracted'],
      ['one'],
    ],
  },
  {
    challenge: 'doors',
    response: '[all] closed',
    right: ['closed', 'all closed', 'doors closed', 'doors are closed', 'close', 'closed and checked'],
    wrong: [
      ['open', 'closed'],
      ['one open'],
      ['not closed', 'closed'],
      ['all open', 'closed'],
      ['all but one closed'],
      ['nearly closed'],
      ['one closed'],
      ["aren't closed", 'closed'],
    ],
  },
  {
    challenge: 'parking brake',
    response: 'set',
    right: ['set', 'brake set', 'parking brake is set', 'set and checked', 'brake is set'],
    wrong: [
      ['released', 'set'],
      ['not set', 'set'],
      ['unset', 'set'],
      ['off'],
      ['reset'],
      ['isn’t set', 'set'],
      ['set released'],
    ],
  },
  {
    challenge: 'parking brake',
    response: 'released',
    right: ['released', 'brake released', 'release'],
    wrong: [
      ['set', 'released'],
      ['not released', 'released'],
      ['applied', 'released'],
      ['checked set', 'released'],
    ],
  },
  {
    challenge: 'doors',
    response: 'locked',
    right: ['locked', 'door locked', 'lock'],
    wrong: [
      ['unlocked', 'locked'],
      ['un-locked', 'locked'],
      ['not locked', 'locked'],
      ['unlock', 'locked'],
      ['blocked'],
      ['clocked'],
    ],
  },
  {
    challenge: 'tables',
    response: 'stowed',
    right: ['stowed', 'stow', 'all stowed', 'tables stowed'],
    wrong: [['unstowed'], ['not stowed', 'stowed'], ['extended', 'stowed'], ['deployed', 'stowed']],
  },
  {
    challenge: 'flight controls',
    response: 'full left {left} full right {right}',
    right: [
      'full left full right',
      'full left, full right',
      'full right full left',
      'full left and full right',
      'uh full left, full right',
    ],
    wrong: [
      ['full left'],
      ['full left half right', 'right'],
      ['full left full left'],
      ['left right'],
      ['not full left full right', 'left'],
      ['full left and free'],
    ],
  },
  {
    challenge: 'anti ice',
    response: 'auto',
    states: [['on'], ['off'], ['auto', 'automatic']],
    right: ['auto', 'automatic', 'anti ice auto', 'otto'],
    wrong: [['on', 'auto'], ['off', 'auto'], ['manual', 'auto'], ['not auto', 'auto'], ['on auto']],
  },
  {
    challenge: 'landing gear',
    response: 'down three green',
    right: ['down three green', 'down and three green', 'gear down three green', 'down three greens'],
    wrong: [
      ['up three green', 'down three green'],
      ['down two green'],
      ['down'],
      ['three green'],
      ['down three red', 'down three green'],
      ['down four green'],
    ],
  },
  {
    challenge: 'beacon',
    response: 'on',
    right: ['on', 'beacon on', "it's on", 'on, checked'],
    wrong: [['off', 'on'], ['not on', 'on'], ['one'], ['in'], ['beacon off', 'on'], ['beacon'], ['on off']],
  },
  {
    challenge: 'windows',
    response: 'closed {position} locked {lock}',
    right: ['closed locked', 'closed and locked', 'locked and closed', 'windows closed and locked'],
    wrong: [
      ['closed'],
      ['closed unlocked', 'lock'],
      ['open locked', 'position'],
      ['closed not locked', 'lock'],
      ['locked'],
    ],
  },
]

function words(random: Random, right: boolean): Case | undefined {
  const { challenge, response, states, ...answers } = random.of(WORD_ITEMS)
  const base = { challenge, response, figures: {}, ...(states ? { states } : {}) }
  if (right) {
    const before = random.of(BEFORE.filter((each) => each !== 'set to '))
    const heard = `${before}${random.of(answers.right)}${random.of(['', '', ' checked', ' thank you', ', confirmed'])}`
    return { input: { ...base, heard }, truth: 'right', why: `words ${response}` }
  }
  const [said, part] = random.of(answers.wrong)
  const heard = `${random.of(['', '', 'uh ', 'okay ', 'and '])}${said}${random.of(['', '', ' checked', ' thank you'])}`
  return { input: { ...base, heard }, truth: 'wrong', why: `words ${response}: ${said}`, ...(part ? { part } : {}) }
}

/** Three speeds with labels, the usual triple. */
function speeds(random: Random, right: boolean): Case | undefined {
  const v1 = 100 + random.below(40)
  const speed = (value: number): Figure => ({ kind: 'speed', min: 40, max: 250, value })
  const figures = { v1: speed(v1), vr: speed(v1 + random.below(8)), v2: speed(v1 + 8 + random.below(10)) }
  const values: Record<string, Figure> = { ...figures }
  const part = random.of(['v1', 'vr', 'v2'])
  if (!right) {
    const value = slip(values[part] as Figure, random.of(['changed', 'swapped'] as const), random)
    if (value === undefined || !isClear(values[part] as Figure, value)) return undefined
    values[part] = withValue(values[part] as Figure, value)
  }
  const [a, b, c] = ['v1', 'vr', 'v2'].map((name) => sayFigure(values[name] as Figure, random))
  const labels = random.of([
    ['V one', 'rotate', 'V two'],
    ['V1', 'rotate', 'V2'],
    ['V1', 'VR', 'V2'],
    ['', '', ''],
  ] as const)
  const said = [`${labels[0]} ${a}`, `${labels[1]} ${b}`, `${labels[2]} ${c}`]
  if (labels[0] !== '' && random.chance(0.2)) said.reverse()
  const input = {
    challenge: 'takeoff speeds',
    response: 'V one <v1> rotate <vr> V two <v2>',
    figures,
    heard: said.join(', '),
  }
  if (right) return { input, truth: 'right', why: 'speeds' }
  return { input, truth: 'wrong', why: 'speeds', part }
}

/** `count` cases of one truth; `wrong` includes answers that are only incomplete. */
export function* tuningCases(truth: 'right' | 'wrong', count: number, seed = 11): Generator<Case> {
  const random = seeded(seed)
  const makers =
    truth === 'right'
      ? [
          rightNumber,
          rightNumber,
          rightNumber,
          rightNumber,
          rightNumber,
          (r: Random) => words(r, true),
          (r: Random) => speeds(r, true),
        ]
      : [
          wrongNumber,
          wrongNumber,
          wrongNumber,
          truncated,
          twoValues,
          negated,
          otherKind,
          (r: Random) => words(r, false),
          (r: Random) => speeds(r, false),
        ]
  for (let made = 0; made < count; ) {
    const each = random.of(makers)(random)
    if (!each) continue
    made++
    yield each
  }
}
