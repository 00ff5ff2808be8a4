/**
 * CHECK corpus: items, frames and errors, written apart from the tuning corpus. Errors are made on the value or on the
 * spoken words; what an error leaves right is not counted as wrong. What it showed at first was mended in the rules, so
 * it is no longer blind; the benchmark runs it with a seed of its own.
 */

import type { Figure, Figures, Value } from '../../src/kernel/kinds/kind.ts'
import { type Case, type Random, seeded } from './case.ts'
import { pronounce } from './checkingValues.ts'
import { STATE_ITEMS } from './checkingWords.ts'

interface Drawn {
  readonly challenge: string
  readonly figure: Figure
}

const between = (random: Random, low: number, high: number) => low + random.below(high - low + 1)

/** One figure of any kind with the challenge that goes with it. */
const DRAW: readonly ((random: Random) => Drawn)[] = [
  (r) => ({
    challenge: 'elevator trim',
    figure: { kind: 'trim', decimals: 1, axis: 'pitch', min: -15, max: 15, value: between(r, -99, 99) / 10 },
  }),
  (r) => ({
    challenge: 'rudder trim',
    figure: { kind: 'trim', decimals: 1, axis: 'yaw', min: -5, max: 5, value: between(r, -45, 45) / 10 },
  }),
  (r) => ({
    challenge: 'stab trim',
    figure: { kind: 'trim', decimals: 2, axis: 'pitch', min: 0, max: 16, value: between(r, 100, 950) / 100 },
  }),
  (r) => ({
    challenge: 'loaded C G',
    figure: { kind: 'decimal', decimals: 1, unit: 'percent', min: 5, max: 45, value: between(r, 101, 399) / 10 },
  }),
  (r) => ({
    challenge: 'engine torque',
    figure: { kind: 'decimal', decimals: 1, min: 0, max: 120, value: between(r, 0, 1050) / 10 },
  }),
  (r) => ({ challenge: 'souls on board', figure: { kind: 'integer', min: 1, max: 250, value: between(r, 2, 220) } }),
  (r) => ({ challenge: 'reference speed', figure: { kind: 'speed', min: 50, max: 350, value: between(r, 88, 170) } }),
  (r) => ({
    challenge: 'crossover speed',
    figure: { kind: 'mach', min: 0.3, max: 0.95, value: between(r, 55, 89) / 100 },
  }),
  (r) => ({
    challenge: 'zero fuel weight',
    figure: { kind: 'weight', unit: 'kg', min: 500, max: 90_000, value: between(r, 60, 800) * 100 },
  }),
  (r) => ({
    challenge: 'block fuel',
    figure: { kind: 'weight', unit: 'lb', say: 'thousands', min: 500, max: 90_000, value: between(r, 12, 500) * 100 },
  }),
  (r) => ({
    challenge: 'outside temperature',
    figure: { kind: 'temperature', unit: 'C', min: -70, max: 60, value: between(r, -45, 45) },
  }),
  (r) => ({
    challenge: 'transponder code',
    figure: { kind: 'digits', length: 4, value: String(between(r, 0, 4095).toString(8)).padStart(4, '0') },
  }),
  (r) => ({
    challenge: 'baro',
    figure: { kind: 'altimeter', unit: 'hPa', min: 900, max: 1080, value: between(r, 950, 1049) },
  }),
  (r) => ({
    challenge: 'baro',
    figure: { kind: 'altimeter', unit: 'inHg', min: 27, max: 32, value: between(r, 2820, 3110) / 100 },
  }),
  (r) => ({ challenge: 'runway heading', figure: { kind: 'heading', value: between(r, 1, 360) } }),
  (r) => ({
    challenge: 'takeoff runway',
    figure: { kind: 'runway', value: `${String(between(r, 1, 36)).padStart(2, '0')}${r.of(['', 'L', 'R', 'C'])}` },
  }),
  (r) => ({
    challenge: 'initial climb',
    figure: { kind: 'altitude', unit: 'ft', min: 0, max: 50_000, value: between(r, 8, 190) * 100 },
  }),
  (r) => ({
    challenge: 'cruising level',
    figure: { kind: 'flightLevel', min: 10, max: 600, value: between(r, 5, 45) * 10 },
  }),
  (r) => ({
    challenge: 'departure frequency',
    figure: { kind: 'frequency', min: 118, max: 137, value: between(r, 118_000 / 25, 136_975 / 25) * 0.025 },
  }),
  (r) => ({
    challenge: 'slot time',
    figure: {
      kind: 'time',
      value: `${String(between(r, 0, 23)).padStart(2, '0')}${String(between(r, 0, 59)).padStart(2, '0')}`,
    },
  }),
  (r) => ({
    challenge: 'holding point',
    figure: {
      kind: 'identifier',
      value: `${r.of([...'ABCDEFGHJKLMNPQRSTUVWXYZ'])}${r.of(['', '1', '2', '3', '7', '9', '12'])}`,
    },
  }),
  (r) => ({
    challenge: 'flap lever',
    figure: {
      kind: 'choice',
      value: r.of(['up', '8', '15', '20', 'full']),
      options: {
        up: ['up', 'zero'],
        '8': ['eight'],
        '15': ['fifteen'],
        '20': ['twenty'],
        full: ['full', 'thirty-five'],
      },
    },
  }),
]

const clean = (figure: Figure): Figure =>
  typeof figure.value === 'number' ? { ...figure, value: Number(figure.value.toFixed(3)) } : figure

function draw(random: Random): Drawn {
  const { challenge, figure } = random.of(DRAW)(random)
  return { challenge, figure: clean(figure) }
}

const LEAD = [
  '',
  '',
  '',
  'er, ',
  'so ',
  'ah, ',
  'I have ',
  'we got ',
  'reads ',
  'showing ',
  'indicating ',
  'and now it is ',
  'alright, ',
  'yep, ',
]
const TAIL = ['', '', '', ', set', ' and set', ' indicated', ', verified', ' confirmed', ' thanks', ', good']
const RESPONSES = ['<x>', '<x> [set]', '(<x> | <x> set)', '[it is] <x>']

function around(said: string, challenge: string, random: Random): string {
  const echo = random.chance(0.25) ? `${random.of(['', 'um, '])}${challenge}${random.of([' ', ', ', ' is '])}` : ''
  return `${echo}${echo === '' ? random.of(LEAD) : ''}${said}${random.of(TAIL)}`
}

function put({ challenge, figure }: Drawn, heard: string, random: Random, response = random.of(RESPONSES)) {
  const figures: Figures = { x: figure }
  return { challenge, response, figures, heard }
}

function right(random: Random): Case {
  const drawn = draw(random)
  const said = pronounce(drawn.figure, random)
  const heard = around(said, drawn.challenge, random)
  return { input: put(drawn, heard, random), truth: 'right', why: drawn.figure.kind }
}

/** Said wrong first and put right, or said twice. */
function rightAfterAll(random: Random): Case | undefined {
  const drawn = draw(random)
  const said = pronounce(drawn.figure, random)
  const other = errors(drawn.figure, random)
  if (random.chance(0.3)) {
    const again = pronounce(drawn.figure, random)
    return { input: put(drawn, `${said}, that is ${again}`, random), truth: 'right', why: `${drawn.figure.kind} twice` }
  }
  if (other === undefined || !isShown(drawn.figure, other)) return undefined
  const first = pronounce({ ...drawn.figure, value: other } as Figure, random)
  const heard = `${first}${random.of([' correction ', ', correction, ', ' uh correction '])}${said}`
  return { input: put(drawn, heard, random), truth: 'right', why: `${drawn.figure.kind} corrected` }
}

/** The digits of a value as written, in one string with what is between them. */
function written(figure: Figure): string {
  const { value } = figure
  if (typeof value === 'string') return value
  if (figure.kind === 'decimal' || figure.kind === 'trim') return value.toFixed(figure.decimals)
  if (figure.kind === 'altimeter' && figure.unit === 'inHg') return value.toFixed(2)
  if (figure.kind === 'mach') return value.toFixed(figure.decimals ?? 2)
  if (figure.kind === 'heading' || figure.kind === 'flightLevel') return String(value).padStart(3, '0')
  if (figure.kind === 'frequency') return value.toFixed(3)
  return String(value)
}

/** Minimal pairs of the ear. */
const SOUND_ALIKE: Readonly<Record<string, string>> = {
  '5': '9',
  '9': '5',
  '2': '3',
  '3': '2',
  '1': '9',
  '6': '7',
  '7': '6',
}

function errors(figure: Figure, random: Random): Value | undefined {
  if (figure.kind === 'choice') return random.of(Object.keys(figure.options).filter((each) => each !== figure.value))
  const text = written(figure)
  const spots = [...text].map((c, i) => (/\d/.test(c) ? i : -1)).filter((i) => i >= 0)
  if (spots.length === 0 || (figure.kind === 'identifier' && random.chance(0.5))) {
    return random.of([...'ABCDEFGHJKLMNPQRSTUVWXYZ'].filter((letter) => letter !== text[0])) + text.slice(1)
  }
  const spot = random.of(spots)
  const digit = text[spot] as string
  const kind = random.below(6)
  let out = text
  if (kind <= 1) out = text.slice(0, spot) + ((Number(digit) + between(random, 1, 9)) % 10) + text.slice(spot + 1)
  else if (kind === 2) out = text.slice(0, spot) + (SOUND_ALIKE[digit] ?? '4') + text.slice(spot + 1)
  else if (kind === 3) out = text.slice(0, spot) + digit + text.slice(spot)
  else if (kind === 4) out = text.slice(0, spot) + text.slice(spot + 1)
  else {
    const next = spots[spots.indexOf(spot) + 1]
    if (next === undefined) return undefined
    const list = [...text]
    list[spot] = text[next] as string
    list[next] = digit
    out = list.join('')
  }
  if (typeof figure.value === 'string') return out === figure.value || out === '' ? undefined : out
  const value = Number(out)
  return !Number.isFinite(value) || Math.abs(value - figure.value) < 1e-6 ? undefined : value
}

/** On the scale and of the shape: an answer with it is clearly another value. */
function isShown(figure: Figure, value: Value): boolean {
  if (typeof value === 'number') {
    if (figure.kind === 'heading') return value >= 1 && value <= 360 && Number.isInteger(value)
    const { min, max } = figure as { min?: number; max?: number }
    return value >= (min ?? 0) && value <= (max ?? 1e9)
  }
  if (figure.kind === 'digits') return value.length === figure.length
  if (figure.kind === 'time') return /^([01]\d|2[0-3])[0-5]\d$/.test(value)
  if (figure.kind === 'runway') return /^(0[1-9]|[12]\d|3[0-6])[LRC]?$/.test(value)
  return true
}

function wrongValue(random: Random): Case | undefined {
  const drawn = draw(random)
  const value = errors(drawn.figure, random)
  if (value === undefined) return undefined
  const clear = isShown(drawn.figure, value)
  if (!clear && ['altitude', 'runway', 'time', 'heading'].includes(drawn.figure.kind)) return undefined
  const heard = around(pronounce({ ...drawn.figure, value } as Figure, random), drawn.challenge, random)
  return {
    input: put(drawn, heard, random),
    truth: 'wrong',
    why: `${drawn.figure.kind} value`,
    ...(clear ? { part: 'x' } : {}),
  }
}

function wrongDirection(random: Random): Case | undefined {
  const drawn = draw(random)
  const { figure } = drawn
  let value: Value | undefined
  if ((figure.kind === 'trim' || figure.kind === 'temperature') && Number(figure.value) !== 0)
    value = -Number(figure.value)
  if (figure.kind === 'runway' && String(figure.value).length === 3) {
    value = String(figure.value).replace(/[LRC]$/, (side) => ({ L: 'R', R: 'L', C: 'L' })[side] ?? '')
  }
  if (value === undefined || !isShown(figure, value)) return undefined
  const heard = around(pronounce({ ...figure, value } as Figure, random), drawn.challenge, random)
  return { input: put(drawn, heard, random), truth: 'wrong', why: `${figure.kind} direction`, part: 'x' }
}

/** A word of the answer lost, doubled or swapped; kept only where the words then say another thing. */
function wrongWords(random: Random): Case | undefined {
  const drawn = draw(random)
  const { figure } = drawn
  const digits = written(figure).replace(/\D/g, '')
  if (typeof figure.value === 'string' && figure.kind !== 'digits' && figure.kind !== 'time') return undefined
  if (figure.kind === 'choice' || figure.kind === 'temperature' || figure.kind === 'trim') return undefined
  const at = random.below(digits.length)
  const how = random.of(['lost', 'doubled', 'swapped'] as const)
  const list = [...digits]
  if (how === 'lost') list.splice(at, 1)
  else if (how === 'doubled') list.splice(at, 0, list[at] as string)
  else [list[at], list[(at + 1) % list.length]] = [list[(at + 1) % list.length] as string, list[at] as string]
  const said = list.join('')
  if (said === digits || said === '' || Number(said) === Number(digits)) return undefined
  // Nobody misses the point of a frequency, nor a zero at its end.
  if (figure.kind === 'frequency' && Number(`${said.slice(0, 3)}.${said.slice(3)}`) === figure.value) return undefined
  // A decimal without its zero is right.
  if (figure.kind === 'decimal' && `${said}0` === digits) return undefined
  const words = [...said]
    .map((c) => 'zero one two three four five six seven eight nine'.split(' ')[Number(c)])
    .join(' ')
  return { input: put(drawn, words, random), truth: 'wrong', why: `${figure.kind} words ${how}` }
}

function twoAtOnce(random: Random): Case | undefined {
  const drawn = draw(random)
  const value = errors(drawn.figure, random)
  if (value === undefined || !isShown(drawn.figure, value)) return undefined
  // Stops are not heard, and "plus zero five" is five degrees.
  if (drawn.figure.kind === 'temperature' && (value === 0 || drawn.figure.value === 0)) return undefined
  const a = pronounce(drawn.figure, random)
  const b = pronounce({ ...drawn.figure, value } as Figure, random)
  const joint = random.of([' or ', ', ', ' and ', ' rather ', ', actually ', ' to ', '. ', ' no ', ' checked '])
  const heard = random.chance(0.5) ? `${a}${joint}${b}` : `${b}${joint}${a}`
  return { input: put(drawn, heard, random), truth: 'wrong', why: `${drawn.figure.kind} two at once` }
}

function denied(random: Random): Case {
  const drawn = draw(random)
  const said = pronounce(drawn.figure, random)
  const heard = random.of([
    `not ${said}`,
    `it is not ${said}`,
    `no, not ${said}`,
    `that isn't ${said}`,
    `${said}, negative`,
    `negative, ${said}`,
    `we don't have ${said}`,
    `${said}, not yet`,
    `unable ${said}`,
    `never ${said}`,
  ])
  return { input: put(drawn, heard, random), truth: 'wrong', why: `${drawn.figure.kind} denied` }
}

/** Another figure's value for this one. */
function otherItem(random: Random): Case | undefined {
  const drawn = draw(random)
  const other = draw(random)
  const bare = (figure: Figure) =>
    written(figure)
      .replace(/\D/g, '')
      .replace(/^0+|0+$/g, '')
  if (other.figure.kind === drawn.figure.kind || bare(other.figure) === bare(drawn.figure)) return undefined
  const heard = random.chance(0.5)
    ? pronounce(other.figure, random)
    : `${other.challenge} ${pronounce(other.figure, random)}`
  return { input: put(drawn, heard, random), truth: 'wrong', why: `${drawn.figure.kind}, other item` }
}

function wordItem(random: Random, wanted: 'right' | 'wrong'): Case {
  const { challenge, response, states, ...answers } = random.of(STATE_ITEMS)
  const base = { challenge, response, figures: {}, ...(states ? { states } : {}) }
  if (wanted === 'right') {
    const said = random.of(answers.right)
    const heard = `${random.chance(0.2) ? `${challenge}, ` : random.of(['', '', 'er ', 'so, ', 'yes, '])}${said}${random.of(['', '', ', thanks', ', captain', '.'])}`
    return { input: { ...base, heard }, truth: 'right', why: `words: ${response}` }
  }
  const [said, part] = random.of(answers.wrong)
  const heard = `${random.of(['', '', 'er ', `${challenge} `])}${said}${random.of(['', '', ', thanks', '.'])}`
  return { input: { ...base, heard }, truth: 'wrong', why: `words: ${response}: ${said}`, ...(part ? { part } : {}) }
}

/** An answer of several parts of different kinds. */
function several(random: Random, wanted: 'right' | 'wrong'): Case | undefined {
  const trim = clean({
    kind: 'trim',
    decimals: 1,
    axis: 'pitch',
    min: -10,
    max: 10,
    value: between(random, 5, 85) / 10,
  })
  const flap: Figure = {
    kind: 'choice',
    value: random.of(['5', '15']),
    options: { '1': ['one'], '5': ['five'], '15': ['fifteen'] },
  }
  const level: Figure = { kind: 'altitude', unit: 'ft', min: 500, max: 40_000, value: between(random, 20, 180) * 100 }
  const code: Figure = { kind: 'digits', length: 4, value: between(random, 512, 4095).toString(8) }
  const parts: readonly (readonly [string, string, Figure])[] = [
    ['flaps', 'flap', flap],
    ['trim', 'trim', trim],
    ['climbing', 'level', level],
    ['squawk', 'code', code],
  ]
  const chosen = parts.filter(() => random.chance(0.6))
  if (chosen.length < 2) return undefined
  const bad = wanted === 'wrong' ? random.of(chosen)[1] : undefined
  const saidParts: string[] = []
  for (const [label, name, figure] of chosen) {
    const value = name === bad ? errors(figure, random) : figure.value
    if (value === undefined || (name === bad && !isShown(figure, value))) return undefined
    if (name === bad && figure.kind === 'altitude' && Number(value) % 100 !== 0) return undefined
    saidParts.push(`${label} ${pronounce({ ...figure, value } as Figure, random).replace(/^(squawk|code) /, '')}`)
  }
  if (random.chance(0.3)) saidParts.reverse()
  const response = chosen.map(([label, name]) => `${label} <${name}>`).join(' ')
  const input = {
    challenge: 'departure briefing',
    response,
    figures: Object.fromEntries(chosen.map(([, name, figure]) => [name, figure])),
    heard: saidParts.join(random.of([', ', ' and ', ' '])),
  }
  if (bad === undefined) return { input, truth: 'right', why: 'several parts' }
  return { input, truth: 'wrong', why: 'several parts', part: bad }
}

/** Right as far as it goes: the direction, a leading zero, the decimals or a whole part lacks. */
function unfinished(random: Random): Case | undefined {
  const drawn = draw(random)
  const { figure, challenge } = drawn
  const number = Number(figure.value)
  const say = (value: Figure) => pronounce(value, random)
  let heard: string | undefined
  let response = '<x> [set]'
  if (figure.kind === 'trim' && number !== 0) {
    heard = say({ kind: 'decimal', decimals: figure.decimals, value: Math.abs(number) })
  } else if (figure.kind === 'heading' && number < 100) heard = spellOut(number)
  else if (figure.kind === 'runway' && String(figure.value).length === 3) {
    heard = say({ kind: 'runway', value: String(figure.value).slice(0, 2) })
  } else if (figure.kind === 'decimal' && figure.decimals === 1 && number % 1 !== 0) {
    heard = say({ kind: 'integer', value: Math.floor(number) })
  } else if (figure.kind !== 'identifier' && random.chance(0.3)) {
    heard = say(figure)
    response = '<x> verified {second} twice'
  }
  if (heard === undefined) return undefined
  return {
    input: put({ challenge, figure }, heard, random, response),
    truth: 'incomplete',
    why: `${figure.kind} unfinished`,
  }
}

const spellOut = (number: number) =>
  [...String(number)].map((c) => 'zero one two three four five six seven eight niner'.split(' ')[Number(c)]).join(' ')

/** `count` cases of one truth. */
export function* checkingCases(truth: Case['truth'], count: number, seed = 90210): Generator<Case> {
  const random = seeded(seed)
  const makers: readonly ((random: Random) => Case | undefined)[] =
    truth === 'right'
      ? [right, right, right, right, rightAfterAll, (r) => wordItem(r, 'right'), (r) => several(r, 'right')]
      : truth === 'incomplete'
        ? [unfinished]
        : [
            wrongValue,
            wrongValue,
            wrongDirection,
            wrongWords,
            twoAtOnce,
            denied,
            otherItem,
            (r) => wordItem(r, 'wrong'),
            (r) => several(r, 'wrong'),
          ]
  let made = 0
  while (made < count) {
    const each = random.of(makers)(random)
    if (!each) continue
    made++
    yield each
  }
}
