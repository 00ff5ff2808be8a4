/**
 * Renders the answers of the demo departure with Debian's flite (voices slt and rms, CMU Arctic, free) into
 * audio/check/departure: `npx tsx tests/audio/makeDeparture.ts`. Needs the programs flite and sox.
 */

import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS } from './departure.ts'

const out = fileURLToPath(new URL('../../audio/check/departure/', import.meta.url))
const scratch = mkdtempSync(join(tmpdir(), 'otherseat-departure-'))
for (const { file, text, voice } of [...PRELIMINARY_ANSWERS, ...FINAL_ANSWERS, ...LISTS]) {
  const raw = join(scratch, `${file}.wav`)
  execFileSync('flite', ['-voice', voice, '-t', text, '-o', raw])
  execFileSync('sox', [raw, '-r', '16000', '-c', '1', '-b', '16', join(out, `${file}.wav`), 'norm', '-3'])
}
rmSync(scratch, { recursive: true })
