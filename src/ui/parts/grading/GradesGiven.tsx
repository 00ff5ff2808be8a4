/** Grades with what backs them; of each competency and part the one that was given last. */

import { type Grade, lastGrades, partName } from '../../../kernel/training/grades.ts'

interface Props {
  readonly label: string
  readonly grades: readonly Grade[]
  /** Left out where they stand. */
  readonly onTakeBack?: (id: string) => void
}

export function GradesGiven({ label, grades, onTakeBack }: Props) {
  if (grades.length === 0) return null
  return (
    <ol class="values" aria-label={label}>
      {lastGrades(grades).map((one) => (
        <li key={one.id}>
          {one.name} <strong>{one.grade}</strong>, {one.step} <span class="soft">in {partName(one)}</span>{' '}
          {onTakeBack && (
            <button type="button" class="plain" onClick={() => onTakeBack(one.id)}>
              Take back
              <span class="hidden-label">
                : {one.name} in {partName(one)}
              </span>
            </button>
          )}
          <Backed words="Seen" behaviours={one.seen} />
          <Backed words="Missing" behaviours={one.notSeen} />
        </li>
      ))}
    </ol>
  )
}

function Backed({ words, behaviours }: { readonly words: string; readonly behaviours: readonly string[] }) {
  if (behaviours.length === 0) return null
  return (
    <div class="small">
      <span class="soft">{words}:</span> {behaviours.join('; ')}
    </div>
  )
}
