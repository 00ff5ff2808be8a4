/** One grade: the competency, what of it was seen and what was missing, and a step from 1 to 5 in words. */

import { useId, useState } from 'preact/hooks'
import type { GradeGiven } from '../../../app/grading/gradeGiven.ts'
import { GRADES, type GradeStep, type GradingList, stepWords } from '../../../kernel/pack/grading.ts'
import { WHOLE_RUN } from '../../../kernel/training/grades.ts'

interface Props {
  readonly list: GradingList
  /** Names of the phases. */
  readonly parts: readonly string[]
  /** Which of them it is for at first; empty for the whole run. */
  readonly partNow: string
  readonly onGrade: (given: GradeGiven) => void
}

type Ticks = Readonly<Record<string, 'seen' | 'notSeen' | undefined>>

export function GradeForm({ list, parts, partNow, onGrade }: Props) {
  const [chosen, setChosen] = useState(list.competencies[0]?.id ?? '')
  // Follows the run until one is chosen.
  const [part, setPart] = useState<string>()
  const [ticks, setTicks] = useState<Ticks>({})
  const [grade, setGrade] = useState<GradeStep>()
  const [given, setGiven] = useState('')
  const group = useId()
  const competency = list.competencies.find(({ id }) => id === chosen) ?? list.competencies[0]
  if (!competency) return null
  const { id, name, behaviours } = competency
  const ticked = (as: 'seen' | 'notSeen') => behaviours.filter((behaviour) => ticks[behaviour] === as)
  const begin = (competency: string) => {
    setChosen(competency)
    setTicks({})
    setGrade(undefined)
    setGiven('')
  }
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault()
        if (grade === undefined) return
        onGrade({ competency: id, grade, seen: ticked('seen'), notSeen: ticked('notSeen'), part: part ?? partNow })
        begin(id)
        setPart(undefined)
        setGiven(`${name}: ${grade} is given.`)
      }}
    >
      <div class="grade-of">
        <label>
          Competency
          <select value={id} onChange={({ currentTarget }) => begin(currentTarget.value)}>
            {list.competencies.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
        <label>
          In
          <select value={part ?? partNow} onChange={({ currentTarget }) => setPart(currentTarget.value)}>
            <option value="">{WHOLE_RUN}</option>
            {parts.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </label>
      </div>
      <ul class="behaviours" aria-label="Behaviours">
        {behaviours.map((behaviour) => (
          <li key={behaviour}>
            <span>{behaviour}</span>
            {(['seen', 'notSeen'] as const).map((as) => (
              <button
                key={as}
                type="button"
                class={ticks[behaviour] === as ? 'first' : ''}
                aria-pressed={ticks[behaviour] === as}
                onClick={() => setTicks({ ...ticks, [behaviour]: ticks[behaviour] === as ? undefined : as })}
              >
                {as === 'seen' ? 'Seen' : 'Missing'}
                <span class="hidden-label">: {behaviour}</span>
              </button>
            ))}
          </li>
        ))}
      </ul>
      <fieldset class="grades">
        <legend>Grade</legend>
        {GRADES.map((step) => (
          <label key={step}>
            <input type="radio" name={group} checked={grade === step} onChange={() => setGrade(step)} />
            <span>
              <strong>{step}</strong> {stepWords(list, step)}
            </span>
          </label>
        ))}
      </fieldset>
      <div class="row">
        <button type="submit" disabled={grade === undefined}>
          Give this grade
        </button>
        <span role="status">{given}</span>
      </div>
      <p class="soft small">{list.source}</p>
    </form>
  )
}
