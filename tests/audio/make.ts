/**
 * Renders what a pilot says into 16 kHz mono WAV with the free synthesisers of Debian (flite, espeak-ng,
 * sox). Run by tsx it writes the files of `lines.ts` with their manifest to `audio/`.
 */

import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { LINES } from './lines.ts'

export interface Voice {
  readonly name: string
  readonly program: 'flite' | 'espeak-ng'
  /** Its name in the program. */
  readonly voice: string
  /** Effects of sox that make another speaker or pace of it. */
  readonly effects?: readonly string[]
}

export const LICENCES = {
  flite: 'made with flite; voices under the CMU flite licence (BSD-like)',
  'espeak-ng': 'made with espeak-ng (a program under GPL-3.0; what it speaks is free)',
} as const

/** For choosing settings. */
export const TUNING_VOICES: readonly Voice[] = [
  { name: 'slt', program: 'flite', voice: 'slt' },
  { name: 'awb', program: 'flite', voice: 'awb' },
  { name: 'klatt4', program: 'espeak-ng', voice: 'en-us+klatt4' },
]
/** For figures that are reported. */
export const CHECK_VOICES: readonly Voice[] = [
  { name: 'rms', program: 'flite', voice: 'rms' },
  { name: 'kal', program: 'flite', voice: 'kal16' },
  { name: 'slt-low', program: 'flite', voice: 'slt', effects: ['pitch', '-250'] },
  { name: 'rms-quick', program: 'flite', voice: 'rms', effects: ['pitch', '150', 'tempo', '1.12'] },
]

/** Writes `file`: speech at -9 dBFS peak, a quarter of a second of silence around it. Throws where a program lacks. */
export function render(text: string, voice: Voice, file: string, effects: readonly string[] = []): void {
  const folder = mkdtempSync(join(tmpdir(), 'say-'))
  const raw = join(folder, 'raw.wav')
  // Synthesisers read a lower-case "v" as a word of its own.
  const said = text.replace(/\bv\b/g, 'V')
  try {
    if (voice.program === 'flite') execFileSync('flite', ['-voice', voice.voice, '-t', said, '-o', raw])
    else execFileSync('espeak-ng', ['-v', voice.voice, '-s', '150', '-w', raw, said])
    const shape = ['-R', raw, '-r', '16000', '-c', '1', '-b', '16', file]
    const chain = [...(voice.effects ?? []), ...effects, 'gain', '-n', '-9', 'pad', '0.25', '0.3']
    execFileSync('sox', [...shape, ...chain], { stdio: ['ignore', 'ignore', 'ignore'] })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function main(): void {
  for (const [folder, voices] of [
    ['tuning', TUNING_VOICES],
    ['check', CHECK_VOICES],
  ] as const) {
    const target = fileURLToPath(new URL(`../../audio/${folder}/`, import.meta.url))
    const manifest = LINES[folder].map(({ name, words }, index) => {
      const voice = voices[index % voices.length] as Voice
      render(words, voice, join(target, `${name}.wav`))
      return { file: `${name}.wav`, words, voice: voice.name, source: voice.program, licence: LICENCES[voice.program] }
    })
    writeFileSync(join(target, 'manifest.json'), `${JSON.stringify(manifest, null, 2)}\n`)
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main()
