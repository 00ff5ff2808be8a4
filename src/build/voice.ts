/**
 * `npm run voice`: records everything that the app can say with the packs under `checklists/`, in one
 * file with an index for each role's voice. Needs `flite` and `lame` (Debian has both); its result is
 * committed, so nobody else does.
 */

import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { asLetter } from '../adapters/voice/flite.ts'
import { levelled, RATE, trimmed } from '../adapters/voice/speechSound.ts'
import { ROLES, type Role } from '../kernel/pack/roles.ts'
import { SPEAKERS } from './speakers.ts'
import { readWav, toWav } from './voiceSound.ts'
import { packsIn, readBackPacks, textsToRecord } from './voiceTexts.ts'

const GAP_MS = 90
/** The mark from which places in the recording are told: decoders put more or less silence before it. */
const MARK_MS = 100
const KBPS = 24

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const silence = (ms: number) => new Float32Array(Math.round((ms * RATE) / 1000))

/** A short pure tone with a steep beginning. */
function mark(): Float32Array {
  return Float32Array.from({ length: RATE / 50 }, (_, at) => 0.5 * Math.cos((2 * Math.PI * 1000 * at) / RATE))
}

function render(voice: string, text: string, file: string): Float32Array {
  execFileSync('flite', ['-voice', voice, '-t', asLetter(text), '-o', file])
  const { rate, samples } = readWav(readFileSync(file))
  if (rate !== RATE) throw new Error(`flite's voice ${voice} speaks at ${rate} Hz; ${RATE} would be right`)
  return levelled(trimmed(samples))
}

function record(role: Role, texts: readonly string[], folder: string): void {
  const wav = join(folder, 'clip.wav')
  const parts: Float32Array[] = [silence(MARK_MS), mark(), silence(3 * GAP_MS)]
  let length = parts.reduce((sum, part) => sum + part.length, 0)
  const clips: Record<string, [number, number]> = {}
  for (const text of texts) {
    const clip = render(SPEAKERS[role], text, wav)
    clips[text] = [Math.round((length / RATE) * 1000), Math.round((clip.length / RATE) * 1000)]
    parts.push(clip, silence(GAP_MS))
    length += clip.length + silence(GAP_MS).length
  }
  const whole = join(folder, 'whole.wav')
  writeFileSync(whole, toWav(parts, RATE))
  const mp3 = here(`audio/voice/${role}.mp3`)
  execFileSync('lame', ['--quiet', '-m', 'm', '-b', String(KBPS), '--cbr', '-q', '0', whole, mp3])
  writeFileSync(here(`audio/voice/${role}.json`), indexText(clips))
  const kilobytes = Math.round(statSync(mp3).size / 1000)
  process.stdout.write(`${role}: ${texts.length} clips, ${Math.round(length / RATE)} s, ${kilobytes} kB\n`)
}

/** One clip a line, so that a change reads as one. */
function indexText(clips: Readonly<Record<string, readonly [number, number]>>): string {
  const lines = Object.entries(clips).map(([text, place]) => `    ${JSON.stringify(text)}: ${JSON.stringify(place)}`)
  return `{\n  "markMs": ${MARK_MS},\n  "clips": {\n${lines.join(',\n')}\n  }\n}\n`
}

const folder = mkdtempSync(join(tmpdir(), 'otherseat-voice-'))
try {
  const packs = [...(await packsIn(here('checklists'))), ...readBackPacks()]
  for (const role of ROLES) record(role, textsToRecord(packs, role), folder)
} finally {
  rmSync(folder, { recursive: true, force: true })
}
