/** grading.yaml in its shape -> the list as the kernel knows it; and what in it cannot be told apart. */

import type { GradingList } from '../kernel/pack/grading.ts'
import { STANDARD_GRADING } from '../kernel/pack/standardGrading.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import type { GradingText } from './gradingSchema.ts'
import { reporting } from './reporting.ts'
import type { Path, Source } from './source.ts'

export const gradingListOf = ({ source, scale, competencies }: GradingText): GradingList => ({
  source,
  scale: scale ?? STANDARD_GRADING.scale,
  competencies: Object.entries(competencies).map(([id, competency]) => ({ id, ...competency })),
})

/** Each name once, and each behaviour once in its competency: a tick must say which one was seen. */
export function checkGrading(source: Source, { scale = [], competencies }: GradingText): Problem[] {
  const problems: Problem[] = []
  const report = reporting(source, problems)
  const once = (texts: readonly string[], pathOf: (index: number) => Path) => {
    const same = (text: string) => text.trim().toLowerCase()
    for (const [index, text] of texts.entries()) {
      if (texts.findIndex((one) => same(one) === same(text)) < index)
        report(
          'grading.repeated',
          pathOf(index),
          `${quoted(text)} stands here twice; say it once, or say what is different`,
        )
    }
  }
  const entries = Object.entries(competencies)
  if (entries.length === 0)
    report('grading.empty', ['competencies'], 'competencies is empty; name one at least, or leave the file out')
  once(scale, (index) => ['scale', index])
  once(
    entries.map(([, { name }]) => name),
    (index) => ['competencies', entries[index]?.[0] ?? '', 'name'],
  )
  for (const [id, { behaviours }] of entries) once(behaviours, (index) => ['competencies', id, 'behaviours', index])
  return problems
}
