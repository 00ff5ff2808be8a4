/** One file of a pack as text, and beneath it what is wrong and what would be better: a click puts the cursor there. */

import { isError, type Problem } from '../../../kernel/problem.ts'
import { Mark } from '../shell/Mark.tsx'
import type { TextFieldProps } from './editor/fieldParts.ts'
import { TextField } from './editor/TextField.tsx'

export function PackText({ problems, ...field }: TextFieldProps) {
  const { label, places } = field
  const errors = problems.filter(isError)
  const advice = problems.filter((one) => !isError(one))
  const show = ({ place }: Problem) => place && places.current.goTo(place)
  return (
    <div class="pack-text">
      <TextField {...field} problems={problems} />
      <section class="problems" aria-label={`Problems in ${label}`}>
        <p role="status" class="small soft">
          {told(errors.length, advice.length)}
        </p>
        <ProblemList name="To mend" problems={errors} show={show} />
        <ProblemList name="Advice" problems={advice} show={show} />
      </section>
    </div>
  )
}

function told(errors: number, advice: number): string {
  const toMend = errors === 0 ? 'Nothing to mend in this file' : `To mend in this file: ${errors}`
  return `${toMend}${advice === 0 ? '' : `; advice: ${advice}`}.`
}

interface ProblemListProps {
  readonly name: string
  readonly problems: readonly Problem[]
  readonly show: (problem: Problem) => void
}

function ProblemList({ name, problems, show }: ProblemListProps) {
  if (problems.length === 0) return null
  return (
    <ul aria-label={name}>
      {problems.map((problem) => (
        <li key={`${problem.code} ${problem.message} ${problem.place?.line} ${problem.place?.column}`}>
          <button type="button" class="plain" onClick={() => show(problem)}>
            <Mark name={isError(problem) ? 'unequal' : 'arrow'} /> {!isError(problem) && 'Advice: '}
            {problem.place && `Line ${problem.place.line}, column ${problem.place.column}: `}
            {problem.message}
          </button>
        </li>
      ))}
    </ul>
  )
}
