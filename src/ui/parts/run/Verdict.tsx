/** The verdict in words and shape. */

import type { Because, Judgement, Verdict as VerdictName } from '../../../kernel/response/model.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const WORDS: Readonly<Record<VerdictName, { readonly text: string; readonly mark: MarkName }>> = {
  correct: { text: 'Correct', mark: 'full' },
  negative: { text: 'Negative', mark: 'unequal' },
  incomplete: { text: 'Incomplete', mark: 'half' },
  sayAgain: { text: 'Say again', mark: 'waves' },
  command: { text: 'Command', mark: 'arrow' },
}

/** Why, without the value that would be right. */
const BECAUSE: Readonly<Record<Because, string>> = {
  value: 'a different value',
  direction: 'a different direction',
  state: 'a different state',
  unit: 'a different unit',
  form: 'right, but in a different form',
  ambiguous: 'it could mean more than one value',
  implausible: 'out of range',
  twoValues: 'two values heard',
  notUnderstood: 'not understood',
  missing: 'a part is missing',
  refused: 'you said negative',
  valueless: 'no value in it',
  limit: 'outside its limits',
  acknowledged: 'acknowledged, not read back',
}

interface VerdictProps {
  readonly judgement: Judgement
  /** There was no value to compare. */
  readonly isOnlyNamed?: boolean
  /** In place of its own words. */
  readonly words?: string | undefined
}

export function Verdict({ judgement, isOnlyNamed = false, words }: VerdictProps) {
  const { verdict, because, form } = judgement
  const { text, mark } = WORDS[verdict]
  return (
    <p class="row">
      <span class={`verdict ${verdict}`}>
        <Mark name={mark} />
        {words ?? (isOnlyNamed ? 'Briefed' : text)}
      </span>
      {because && because !== 'missing' && verdict !== 'correct' && (
        <span>
          {BECAUSE[because]}
          {form && `: ${form}`}
        </span>
      )}
    </p>
  )
}
