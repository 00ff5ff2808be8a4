/** States that are said in several words or ways: "hold short" and its contrary, "cross". */

import type { Token } from '../numbers/tokens.ts'

interface PhraseStates {
  readonly same: readonly (readonly string[])[]
  /** Says the same here, and something else where it is the response's own. */
  readonly alsoSaid?: readonly (readonly string[])[]
  readonly against: readonly (readonly string[])[]
  /** Words that point at the state even where the rest was not said. */
  readonly knownBy: readonly string[]
}

/** What a controller lets an aircraft do at a runway: each excludes the others. */
const HOLD = [
  ['hold', 'short'],
  ['holding', 'short'],
  ['short', 'of'],
]
const CROSS = [['cross'], ['crossing'], ['cleared', 'to', 'cross'], ['cleared', 'across']]
const LINE_UP = [
  ['line', 'up'],
  ['lining', 'up'],
]
/** Off the runway. */
const VACATE = [['vacate'], ['vacating'], ['exit'], ['exiting'], ['turn', 'off'], ['turning', 'off'], ['come', 'off']]
const BACKTRACK = [
  ['backtrack'],
  ['backtracking'],
  ['back', 'track'],
  ['back', 'taxi'],
  ['backtaxi'],
  ['back', 'tracking'],
]
const TAKEOFF = [
  ['cleared', 'for', 'takeoff'],
  ['cleared', 'takeoff'],
  ['cleared', 'for', 'take', 'off'],
  ['cleared', 'take', 'off'],
  ['takeoff'],
  ['take', 'off'],
]

const MOVES = [HOLD, CROSS, LINE_UP, TAKEOFF]

const STATES: readonly PhraseStates[] = [
  {
    same: [['pushback'], ['push', 'back']],
    against: [
      ['push', 'forward'],
      ['push', 'fwd'],
    ],
    knownBy: [],
  },
  {
    same: ['push', 'pushback', 'push back'].flatMap((push) =>
      ['start', 'start up', 'startup'].map((start) => `${push} and ${start}`.split(' ')),
    ),
    against: [],
    knownBy: [],
  },
  { same: [['push']], alsoSaid: [['pushback'], ['push', 'back']], against: [], knownBy: [] },
  {
    same: HOLD,
    against: [...CROSS, ...LINE_UP, ...TAKEOFF],
    knownBy: ['short'],
  },
  {
    same: CROSS,
    against: [...HOLD, ...LINE_UP, ...TAKEOFF],
    knownBy: [],
  },
  {
    same: [['monitor'], ['monitoring']],
    against: [['contact'], ['contacting']],
    knownBy: [],
  },
  {
    same: [['contact'], ['contacting']],
    against: [['monitor'], ['monitoring']],
    knownBy: [],
  },
  {
    same: [
      ['push', 'approved'],
      ['push', 'back', 'approved'],
      ['pushback', 'approved'],
      ['approved', 'to', 'push'],
      ['approved', 'for', 'push'],
      ['approved', 'for', 'pushback'],
    ],
    against: [],
    knownBy: [],
  },
  {
    same: [
      ['start', 'approved'],
      ['start', 'is', 'approved'],
      ['startup', 'approved'],
      ['start', 'up', 'approved'],
      ['start', 'up', 'is', 'approved'],
      ['startup', 'is', 'approved'],
      ['approved', 'to', 'start'],
      ['approved', 'for', 'start'],
      ['approved', 'for', 'start', 'up'],
      ['approved', 'for', 'the', 'start', 'up'],
      ['cleared', 'to', 'start'],
      ['cleared', 'for', 'start'],
      ['cleared', 'start'],
      ['okay', 'to', 'start'],
      ['ok', 'to', 'start'],
    ],
    against: [
      ['holding', 'for', 'start'],
      ['stand', 'by', 'for', 'start'],
      ['standing', 'by', 'for', 'start'],
    ],
    knownBy: [],
  },
  {
    same: [
      ['and', 'start'],
      ['and', 'start', 'up'],
      ['and', 'startup'],
      ['and', 'crank'],
    ],
    against: [],
    knownBy: [],
  },
  {
    same: [['vacated']],
    alsoSaid: [['clear', 'of'], ['clear']],
    against: [['cross'], ['crossing'], ['hold', 'short'], ['holding', 'short'], ['short', 'of']],
    knownBy: [],
  },
  {
    same: [['request'], ['requesting']],
    alsoSaid: [
      ['ready', 'for'],
      ['ready', 'to'],
      ['like'],
      ['like', 'to'],
      ['could', 'we', 'have'],
      ['can', 'we', 'have'],
      ['can', 'we', 'get'],
      ['may', 'we', 'have'],
      ['looking', 'for'],
    ],
    against: [],
    knownBy: [],
  },
  {
    same: LINE_UP,
    against: [...TAKEOFF, ['taking', 'off'], ...HOLD, ...CROSS],
    knownBy: [],
  },
  {
    same: [['takeoff'], ['take', 'off']],
    against: [...LINE_UP, ...HOLD, ...CROSS],
    knownBy: [],
  },
  { same: VACATE, against: [], knownBy: [] },
  { same: BACKTRACK, against: [], knownBy: [] },
  { same: [['approved']], alsoSaid: [['cleared']], against: [], knownBy: [] },
]

/** Things whose name begins with a state. */
const COMPOUNDS: ReadonlySet<string> = new Set(
  ['feed', 'bleed', 'tie', 'wind', 'check'].map((thing) => `cross ${thing}`),
)

/** The wording with another form of its state, those with the contrary, and words that point at it. */
export function phraseStatesOf(words: readonly string[]): {
  readonly same: readonly (readonly string[])[]
  readonly against: readonly (readonly string[])[]
  readonly knownBy: readonly string[]
} {
  for (const { same, alsoSaid = [], against, knownBy } of STATES) {
    for (const state of same) {
      const at = words.findIndex((_, i) => state.every((word, k) => words[i + k] === word))
      if (at < 0 || COMPOUNDS.has(words.slice(at, at + 2).join(' '))) continue
      const put = (other: readonly string[]) => [...words.slice(0, at), ...other, ...words.slice(at + state.length)]
      const others = [...same.filter((other) => other !== state), ...alsoSaid]
      return { same: others.map(put), against: against.map(put), knownBy }
    }
  }
  return NONE
}
const NONE = { same: [], against: [], knownBy: [] }

/**
 * "Line up and wait, cleared for takeoff" to a clearance to line up: what is left without the move that was cleared, for the
 * other one was taken for granted as well. Undefined where not both were said.
 */
export function withoutClearedMove(
  cleared: readonly (readonly string[])[],
  said: readonly Token[],
): Token[] | undefined {
  const words = said.map(({ text }) => text)
  const own = MOVES.filter((move) => cleared.some((response) => isIn(move, response)))
  if (!MOVES.some((move) => !own.includes(move) && isIn(move, words))) return undefined
  const taken = new Set(own.flat().flatMap((phrase) => placesOf(phrase, words)))
  return taken.size === 0 ? undefined : said.filter((_, at) => !taken.has(at))
}

const isIn = (move: readonly (readonly string[])[], words: readonly string[]) =>
  move.some((phrase) => placesOf(phrase, words).length > 0)

/** Where the words of a phrase stand. */
const placesOf = (phrase: readonly string[], words: readonly string[]): number[] =>
  words.flatMap((_, at) => (phrase.every((word, k) => words[at + k] === word) ? phrase.map((__, k) => at + k) : []))
