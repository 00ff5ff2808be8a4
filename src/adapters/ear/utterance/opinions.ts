/** The opinions that are asked about each utterance, in their order. To add one: its own file, and its line here. */

import { furtherPasses } from './furtherPasses.ts'
import type { Opinion } from './opinion.ts'
import type { PronunciationsOf } from './phoneBeam.ts'
import type { Passes } from './recogniser.ts'
import type { TakeIn } from './rescoring.ts'
import { secondModel } from './secondModel.ts'

export const opinionsOf = (passes: Passes, takeIn: TakeIn, pronunciationsOf: PronunciationsOf): readonly Opinion[] => [
  secondModel(takeIn, pronunciationsOf),
  furtherPasses(passes),
]
