/** What a colleague on the radio may get wrong in one read-back: a value, or an element that is missing. */

import type { Value } from '../../kinds/kind.ts'
import { sayOnRadio } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { figuresFor } from '../../pack/place.ts'
import type { Seeded } from '../../seeded.ts'
import type { RunState } from '../core/state.ts'
import { requiredOf } from '../talk/readBackWords.ts'
import { saidValues } from '../talk/said.ts'
import { findTurn } from '../talk/talk.ts'
import { ofGrade, wrongValues } from './draw.ts'
import { type Fault, GRADES, type Grade } from './model.ts'

/** In a read-back of so many elements one that is missing is hard to hear. */
const MANY = 4

/** Undefined where none can be made. */
export function radioFault(pack: Pack, state: RunState, about: string, chance: Seeded): Fault | undefined {
  const kind = chance.pick(['misread', 'leftOut', 'misread'] as const)
  const grade = chance.pick(GRADES)
  const left = kind === 'leftOut' ? leavingOut(pack, state, about, chance) : undefined
  return left ?? misreading(pack, state, about, grade, chance)
}

function misreading(pack: Pack, state: RunState, about: string, grade: Grade, chance: Seeded): Fault | undefined {
  const values = saidValues(state)
  const found = requiredOf(findTurn(pack, about).turn, state).flatMap(({ id, response }) =>
    response.figures.flatMap((figure) => {
      const right = values[figure]
      const wrong = right === undefined ? [] : soundingOther(pack, state, figure, right)
      return right === undefined || wrong.length === 0 ? [] : [{ element: id, figure, right, wrong }]
    }),
  )
  if (found.length === 0) return undefined
  const { element, figure, right, wrong } = chance.pick(found)
  const said = ofGrade(wrong, grade, chance)
  return said === undefined ? undefined : { kind: 'misread', grade, about, element, figure, said, right }
}

/** Another value that sounds like the right one cannot be heard to be wrong. */
function soundingOther(pack: Pack, state: RunState, name: string, right: Value): Value[] {
  const words = (value: Value) => {
    const figure = figuresFor(pack, { [name]: value }, [name])[name]
    return figure && sayOnRadio(figure, state.settings.radio ?? 'icao')
  }
  return wrongValues(pack, name, right).filter((value) => words(value) !== words(right))
}

/** Never the only one: then nothing would have been read back. */
function leavingOut(pack: Pack, state: RunState, about: string, chance: Seeded): Fault | undefined {
  const elements = requiredOf(findTurn(pack, about).turn, state)
  if (elements.length < 2) return undefined
  const { id, response } = chance.pick(elements)
  const grade = elements.length >= MANY ? 'hard' : 'middling'
  const [figure] = response.figures
  const right = figure === undefined ? undefined : saidValues(state)[figure]
  return {
    ...{ kind: 'leftOut', grade, about, element: id },
    ...(figure !== undefined && right !== undefined && { figure, right }),
  }
}
