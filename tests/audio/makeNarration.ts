/**
 * Renders some of what is said beside answers, in the check voices, into audio/check/narration:
 * `npx tsx tests/audio/makeNarration.ts`. Needs the programs flite and sox.
 */

import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { CHECK_VOICES, LICENCES, render, type Voice } from './make.ts'
import { SPOKEN_BESIDE } from './narration.ts'

const out = fileURLToPath(new URL('../../audio/check/narration/', import.meta.url))
const { pilot, radio, other } = SPOKEN_BESIDE.check
const manifest = [...pilot.slice(0, 5), ...radio.slice(0, 2), ...other.slice(0, 1)].map((words, index) => {
  const voice = CHECK_VOICES[index % CHECK_VOICES.length] as Voice
  const file = `${String(index + 1).padStart(2, '0')}.wav`
  render(words, voice, `${out}${file}`)
  return { file, words, voice: voice.name, source: voice.program, licence: LICENCES[voice.program] }
})
writeFileSync(`${out}manifest.json`, `${JSON.stringify(manifest, null, 2)}\n`)
