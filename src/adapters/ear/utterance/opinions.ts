/** The opinions that are asked about each utterance, in their order. To add one: its own file, and its line here. */

import { furtherPasses } from './furtherPasses.ts'
import type { Opinion } from './opinion.ts'
import type { Passes } from './recogniser.ts'
import { rescoring, type TakeIn } from './rescoring.ts'

export const opinionsOf = (passes: Passes, takeIn: TakeIn): readonly Opinion[] => [
  rescoring(takeIn),
  furtherPasses(passes),
]
