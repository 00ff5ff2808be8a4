/**
 * Renders the answers of the demo departure, its talk, and words of command in two of the check voices into audio/check/departure:
 * `npx tsx tests/audio/makeDeparture.ts`. Needs the programs flite and sox.
 */

import { fileURLToPath } from 'node:url'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS, SAME_VOICE } from './departure.ts'
import { CHECK_VOICES, render } from './make.ts'
import { OBJECTIONS } from './partner.ts'
import { RUN_ANSWERS } from './run.ts'
import { STOPS } from './stop.ts'
import { TALK_ANSWERS } from './talk.ts'

const out = fileURLToPath(new URL('../../audio/check/departure/', import.meta.url))
const said = [
  ...PRELIMINARY_ANSWERS,
  ...FINAL_ANSWERS,
  ...LISTS,
  ...SAME_VOICE,
  ...TALK_ANSWERS,
  ...RUN_ANSWERS,
  ...STOPS,
  ...OBJECTIONS,
]
for (const { file, text, voice: name } of said) {
  const voice = CHECK_VOICES.find((candidate) => candidate.name === name)
  if (!voice) throw new Error(`${name} is no check voice`)
  render(text, voice, `${out}${file}.wav`)
}
