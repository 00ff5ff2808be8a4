/** How the pilot comes on: what is due today, then pictures of all runs, each with its table. */

import { useEffect, useMemo, useState } from 'preact/hooks'
import { CLASS_NAMES, chartsOf, counted } from '../../app/training/charts.ts'
import type { TrialClass } from '../../kernel/training/facts.ts'
import { ChartFigure } from '../parts/progress/ChartFigure.tsx'
import { FiveMinutes } from '../parts/progress/FiveMinutes.tsx'
import { ReadBacks } from '../parts/progress/ReadBacks.tsx'
import { useActions, useApp } from '../useApp.ts'

/** Fewer runs show no course. */
const FEW_RUNS = 5

export function Progress() {
  const training = useApp((state) => state.training)
  const actions = useActions()
  useEffect(() => void actions.readProgress(), [actions])
  return (
    <main class="page narrow stack wide">
      <h1 tabIndex={-1}>Progress</h1>
      <FiveMinutes />
      <ReadBacks />
      {training ? <Pictures /> : <p role="status">Reading your runs …</p>}
    </main>
  )
}

function Pictures() {
  const training = useApp((state) => state.training)
  const [of, setOf] = useState<TrialClass>('value')
  const charts = useMemo(() => (training ? chartsOf(training.progress, of) : []), [training, of])
  if (!training) return null
  const { runs, drills, classes } = training.progress
  const isChosen = classes.some((one) => one.of === of)
  return (
    <>
      <div class="stack">
        <p>
          {runsTold(runs, drills)}
          {training.unreadable > 0 && ` ${counted(training.unreadable, 'run')} could not be read.`}
        </p>
        {classes.length > 0 && (
          <div class="field">
            <label for="trial-class">Look at</label>
            <select
              id="trial-class"
              value={isChosen ? of : classes[0]?.of}
              onChange={(event) => setOf(event.currentTarget.value as TrialClass)}
            >
              {classes.map((one) => (
                <option key={one.of} value={one.of}>
                  {CLASS_NAMES[one.of]}
                </option>
              ))}
            </select>
          </div>
        )}
      </div>
      {charts.map((chart) => (
        <ChartFigure key={chart.id} chart={chart} />
      ))}
    </>
  )
}

function runsTold(runs: number, drills: number): string {
  if (runs === 0) return 'No run yet. Everything here is made of the logs that this browser keeps.'
  const few = runs < FEW_RUNS ? ': too few to tell how you come on' : ''
  const besides = drills > 0 ? ` ${counted(drills, 'drill')} count for what is due, and not here.` : ''
  return `${counted(runs, 'run')}${few}.${besides} Bars beside a point, and "probably between", are where it may really lie, 95 times in a hundred.`
}
