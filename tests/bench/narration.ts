/**
 * Benchmark of what is said beside answers: ten minutes of a pilot who thinks aloud, a radio, another person, coughs,
 * breath and clicks, played to an item of each kind that waits for its answer. Counted is what the run made of it:
 * verdicts, and what it said and sounded. Needs flite and sox. `NARRATION_MINUTES`, `NARRATION_SET` (tuning, check),
 * `NARRATION_PLACES` (names with commas between) for a part of it; `NARRATION_SHOW=1` tells every reaction.
 */

import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readWav } from '../../src/adapters/ear/audio/wav.ts'
import { transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import { readCommand } from '../../src/kernel/response/commands.ts'
import { CHECK_VOICES, render, TUNING_VOICES, type Voice } from '../audio/make.ts'
import { SPOKEN_BESIDE, type Speaker } from '../audio/narration.ts'
import { counted, REACTIONS, type Reactions, reactionsTo } from './reactions.ts'
import { fainter, noises, overRadio, type Sound, session } from './room.ts'
import { createEars, takeSeat } from './seat.ts'

const MINUTES = Number(process.env.NARRATION_MINUTES ?? 10)
const SET = process.env.NARRATION_SET === 'tuning' ? 'tuning' : 'check'
const SEEDS = { tuning: 11, check: 12 }
/** People's recordings are of one word each: said to the microphone it may well be asked for again, as no narration is. */
const A_WORD = 'person: '
const TO_A_WORD = 'sayAgainsToAWord'
const COLUMNS = [...REACTIONS, TO_A_WORD] as const

/** Where the run waits -> the item, or what is typed to come there. */
const PLACES: Readonly<Record<string, readonly [list: string, item: string] | { readonly typed: readonly string[] }>> =
  {
    weight: ['loadFigures', 'zeroFuelWeight'],
    trim: ['loadFigures', 'trim'],
    speed: ['loadFigures', 'v1'],
    percent: ['loadFigures', 'thrust'],
    words: ['beforeStart', 'brake'],
    altimeter: ['beforeStart', 'altimeters'],
    code: ['beforeStart', 'transponder'],
    twoParts: ['beforeStart', 'doors'],
    flap: ['enginesRunning', 'flap'],
    twoSpeeds: ['readyForTaxi', 'speeds'],
    runway: ['readyForTaxi', 'runway'],
    readBack: {
      typed: [
        ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one three four'],
        ...['one four one', 'niner zero point four', 'edition two, seven two on board', 'get the information'],
      ],
    },
  }

export async function measure(): Promise<Record<string, number>> {
  const sounds = await soundsOf(SET)
  const ears = await createEars()
  const wanted = process.env.NARRATION_PLACES?.split(',') ?? Object.keys(PLACES)
  const measured: Record<string, number> = {}
  for (const name of wanted) {
    const place = PLACES[name]
    if (!place) throw new Error(`NARRATION_PLACES: no ${name} among ${Object.keys(PLACES).join(', ')}`)
    const seat = await takeSeat(ears, 'typed' in place)
    if ('typed' in place) for (const text of place.typed) await seat.type(text)
    else await seat.openItem(...place)
    const reactions = await reactionsTo(seat, session(sounds, MINUTES, SEEDS[SET]))
    for (const kind of REACTIONS) measured[`narration.${name}.${kind}`] = counted(reactions, kind)
    const toWords = reactions.filter(({ during }) => during.startsWith(A_WORD))
    measured[`narration.${name}.${TO_A_WORD}`] = counted(toWords, 'sayAgains')
    if (process.env.NARRATION_SHOW) show(name, reactions)
  }
  for (const kind of COLUMNS) {
    measured[`narration.most.${kind}`] = Math.max(...wanted.map((name) => measured[`narration.${name}.${kind}`] ?? 0))
  }
  return measured
}

function show(place: string, reactions: Reactions): void {
  for (const { during, kind, text } of reactions) process.stderr.write(`${place} | ${kind} | ${during} | ${text}\n`)
}

export function table(measured: Readonly<Record<string, number>>): string {
  const places = [...Object.keys(PLACES), 'most'].filter((name) => `narration.${name}.verdicts` in measured)
  const rows = places.map(
    (name) => `| ${name} | ${COLUMNS.map((kind) => measured[`narration.${name}.${kind}`]).join(' | ')} |`,
  )
  return [
    `${MINUTES} minutes at each place:`,
    '',
    `| waits for | ${COLUMNS.join(' | ')} |`,
    `| --- |${' --- |'.repeat(COLUMNS.length)}`,
    ...rows,
  ].join('\n')
}

/** Every sentence, in one voice of the set each, people's words that answer nothing, and sounds without words. */
async function soundsOf(set: 'tuning' | 'check'): Promise<Sound[]> {
  const folder = await mkdtemp(join(tmpdir(), 'narration-'))
  const voices = set === 'check' ? CHECK_VOICES : TUNING_VOICES
  try {
    const spoken: Sound[] = []
    for (const [speaker, texts] of Object.entries(SPOKEN_BESIDE[set]) as [Speaker, readonly string[]][]) {
      for (const [index, text] of texts.entries()) {
        const voice = voices[index % voices.length] as Voice
        const file = join(folder, 'said.wav')
        render(text, voice, file)
        spoken.push({ what: `${speaker}: ${text}`, pcm: asFrom(speaker, await pcmOf(file), index) })
      }
    }
    return [...spoken, ...(await people(set)), ...noises(SEEDS[set])]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

function asFrom(speaker: Speaker, pcm: Float32Array, index: number): Float32Array {
  if (speaker === 'radio') return overRadio(pcm, index)
  return speaker === 'other' ? fainter(pcm, 0.3) : pcm
}

/** Not those that tell the app something: who says "repeat" wants it to be said again. */
async function people(set: 'tuning' | 'check'): Promise<Sound[]> {
  const folder = fileURLToPath(new URL(`../../audio/${set}/human/`, import.meta.url))
  const lines: { file: string; words: string; kind: string }[] = JSON.parse(
    await readFile(join(folder, 'manifest.json'), 'utf8'),
  )
  const other = lines.filter(({ kind, words }) => kind === 'otherSpeech' && !readCommand(transcriptOf(words)))
  return Promise.all(
    other.map(async ({ file, words }) => ({ what: `${A_WORD}${words}`, pcm: await pcmOf(join(folder, file)) })),
  )
}

async function pcmOf(file: string): Promise<Float32Array> {
  const wav = readWav(await readFile(file))
  if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
  return wav.pcm
}
