/** States that take two words to say, where one word alone does not: "hold short" and its contrary, "cross". */

interface PhraseStates {
  readonly same: readonly (readonly string[])[]
  readonly against: readonly (readonly string[])[]
  /** Words by which the state is known even where the rest of it was not said. */
  readonly knownBy: readonly string[]
}

const STATES: readonly PhraseStates[] = [
  {
    same: [
      ['hold', 'short'],
      ['holding', 'short'],
    ],
    against: [['cross'], ['crossing']],
    knownBy: ['short'],
  },
]

/** Wordings with another form of the state in them, those with its contrary, and words that point at it. */
export function phraseStatesOf(words: readonly string[]): {
  readonly same: readonly (readonly string[])[]
  readonly against: readonly (readonly string[])[]
  readonly knownBy: readonly string[]
} {
  for (const { same, against, knownBy } of STATES) {
    for (const state of same) {
      const at = words.findIndex((_, i) => state.every((word, k) => words[i + k] === word))
      if (at < 0) continue
      const put = (other: readonly string[]) => [...words.slice(0, at), ...other, ...words.slice(at + state.length)]
      return { same: same.filter((other) => other !== state).map(put), against: against.map(put), knownBy }
    }
  }
  return NONE
}
const NONE = { same: [], against: [], knownBy: [] }
