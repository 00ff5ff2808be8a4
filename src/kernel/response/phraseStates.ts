/** States that take two words to say: "hold short" and its contrary, "cross". */

interface PhraseStates {
  readonly same: readonly (readonly string[])[]
  readonly against: readonly (readonly string[])[]
  /** Words that point at the state even where the rest was not said. */
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

/** The wording with another form of its state, those with the contrary, and words that point at it. */
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
