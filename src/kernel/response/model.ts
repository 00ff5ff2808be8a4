/** The words of judging: what was heard, what is asked, what came of it. Shapes only; see `judge.ts`. */

import type { Figures, Judged, Phraseology, Value } from '../kinds/kind.ts'
import type { Band } from '../kinds/value.ts'
import type { Command } from './commands.ts'
import type { Hypotheses } from './hypotheses.ts'
import type { Response } from './response.ts'

export const VERDICTS = ['correct', 'negative', 'incomplete', 'sayAgain', 'command'] as const
export type Verdict = (typeof VERDICTS)[number]

/** The pilot's miss; "say again" is the ear's. */
export const isMiss = ({ verdict }: Pick<Judgement, 'verdict'>): boolean =>
  verdict === 'negative' || verdict === 'incomplete'

export type Because =
  | 'value'
  | 'direction'
  | 'state'
  | 'unit'
  | 'form'
  | 'ambiguous'
  | 'implausible'
  | 'twoValues'
  | 'notUnderstood'
  | 'missing'
  | 'refused'
  /** "Checked", "set": said to be done, without its value. */
  | 'valueless'
  /** Read off a gauge, and outside its limits. */
  | 'limit'
  /** "Roger", "wilco": acknowledged where it has to be read back. */
  | 'acknowledged'

export interface Part {
  /** The figure's name, the tag, or the literal text. */
  readonly name: string
  readonly kind: 'word' | 'figure'
  readonly state: 'ok' | 'wrong' | 'missing'
  /** The words that were taken for this part. */
  readonly heard?: string
  /** The value that was read from them; for a word the state said. */
  readonly read?: Value
  readonly expected?: Value
  /** Of a reading that is outside: where it must lie. */
  readonly limits?: Band
  /** What is missing where the part was begun but not finished. */
  readonly lacks?: 'direction' | 'digits' | 'decimals'
  /** Right, but said beside what was not understood, where other parts are missing: it has to be said again with them. */
  readonly doubtful?: boolean
}

/** Where a wrong number may come from; every cause that fits is named. */
export interface Cause {
  readonly cause:
    | 'earlierRevision'
    | 'otherFigure'
    | 'digitsSwapped'
    | 'neighbourRow'
    | 'neighbourColumn'
    | 'otherFlap'
    | 'otherUnit'
  /** For people: "takeoff trim of the preliminary figures". */
  readonly detail: string
}

export interface Judgement {
  readonly verdict: Verdict
  readonly command?: Command
  /** What a command is about: a figure for `confirm`, a list for `call`, a reason for `pass`, the words of a remark. */
  readonly argument?: string
  readonly parts: readonly Part[]
  readonly because?: Because
  /** For `because: form`: the form asked for, ready to be spoken ("digit by digit"). */
  readonly form?: string
  readonly causes?: readonly Cause[]
}

export type PartStates = Readonly<Record<string, readonly (readonly string[])[]>>

export interface Alternative {
  readonly text: string
  readonly score?: number
}

/** What is said to a station: all of its figures have values. */
export type TransmittedInput = Omit<JudgeInput, 'challenge' | 'figures'> & { readonly figures: Figures }

export interface JudgeInput extends Hypotheses {
  readonly challenge?: string
  readonly response: Response
  readonly figures: Judged
  readonly states?: readonly (readonly string[])[]
  /** Tag -> what that part of the answer could be in; all of it stands in `states` too. */
  readonly partStates?: PartStates
  readonly phraseology?: Phraseology
  /** Names of parts already right in an earlier breath of this challenge. */
  readonly held?: readonly string[]
  /** Part -> its words of an earlier breath, where something of it was missing: "five point two", and now "up". */
  readonly begun?: Readonly<Record<string, string>>
  /** Just these words: nothing may stand beside them. */
  readonly exact?: boolean
  /** A yes-or-no question is pending: only then are affirm and negative commands. */
  readonly yesNo?: boolean
  /** Spoken names of lists (name -> ways to say it), for `call`. */
  readonly lists?: Readonly<Record<string, readonly string[]>>
  /** Spoken names of figures, for `confirm`. */
  readonly confirmable?: Readonly<Record<string, readonly string[]>>
  /** Figure -> implausible value read at the try before: the same one again is negative. */
  readonly implausibleBefore?: Readonly<Record<string, Value>>
  /** No ear can have misheard it: an implausible value is negative at once, where there is but one. */
  readonly isTyped?: boolean
}
