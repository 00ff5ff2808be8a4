/** Advice on a pack in which nothing is wrong: what would fail in a run, or could be better. It fails no check. */

import type { Problem } from '../../kernel/problem.ts'
import { adviseFigures } from './figures.ts'
import { adviseItems } from './items.ts'
import { adviseOrder } from './order.ts'
import { advisePhrases } from './phrases.ts'
import { adviseReach } from './reach.ts'
import { adviseTables } from './tables.ts'
import { adviseTexts } from './texts.ts'
import type { Written } from './written.ts'

const ADVICE = [adviseFigures, adviseTables, adviseTexts, adviseItems, advisePhrases, adviseReach, adviseOrder]

export function adviceOn(written: Written): Problem[] {
  return ADVICE.flatMap((advise) => advise(written))
}
