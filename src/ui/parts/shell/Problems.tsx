/** What is wrong in something a person wrote: each with its place and what would be right. */

import { isError, type Problem } from '../../../kernel/problem.ts'
import { Mark } from './Mark.tsx'

export function Problems({ title, problems }: { readonly title: string; readonly problems: readonly Problem[] }) {
  if (problems.length === 0) return null
  return (
    <section class="stack" aria-label={title}>
      <h2>
        {title} ({problems.length})
      </h2>
      <ul class="values">
        {problems.map((problem) => (
          <li key={`${problem.code} ${problem.message} ${problem.place?.line}`}>
            <Mark name={isError(problem) ? 'unequal' : 'arrow'} /> <strong>{isError(problem) ? 'Fix' : 'Check'}</strong>{' '}
            {problem.message}
            {problem.place && (
              <div class="soft small">
                {problem.place.file}, line {problem.place.line}, column {problem.place.column}
              </div>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
