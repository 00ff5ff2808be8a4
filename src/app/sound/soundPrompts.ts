/**
 * The sound check's lines, what was made of each, and what follows for this speaker and room. The ear is
 * set to the shape of a line as to that of an item: it does not know what is to be read.
 */

import type { Hearable, Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Heard } from '../../kernel/hearing/heard.ts'
import type { Figure, KindSpec } from '../../kernel/kinds/kind.ts'
import { tokensOf, transcriptOf } from '../../kernel/numbers/tokens.ts'
import { type Command, LISTENED_FOR, readCommand } from '../../kernel/response/commands.ts'
import { hypothesesOf } from '../../kernel/response/hypotheses.ts'
import { judge } from '../../kernel/response/judge.ts'
import { responseFrom } from '../../kernel/response/response.ts'
import { calibratedBy } from '../../kernel/run/debrief/look/lookTimes.ts'
import type { Settings } from '../settings.ts'

export interface SoundPrompt {
  /** As it stands on the screen. */
  readonly shown: string
  /** A value, or one of the standard phrases. */
  readonly figure?: Figure
  readonly command?: Command
}

const digits = (value: string): SoundPrompt => ({
  shown: [...value].join(' '),
  figure: { kind: 'digits', length: value.length, value },
})

/** Fives and nines in every place: they are what is misheard most. */
export const SOUND_PROMPTS: readonly SoundPrompt[] = [
  digits('5904'),
  { shown: '4.6 up', figure: { kind: 'trim', decimals: 1, value: 4.6 } },
  { shown: 'stand by', command: 'standBy' },
  digits('9513'),
  { shown: '159', figure: { kind: 'speed', value: 159 } },
  { shown: '25 690', figure: { kind: 'weight', unit: 'kg', value: 25_690 } },
  { shown: 'what is left', command: 'whatIsLeft' },
  { shown: '1009', figure: { kind: 'altimeter', unit: 'hPa', value: 1009 } },
]

/** For a check without a pack. */
export const SOUND_VOCABULARY: Vocabulary = {
  ...{ phrases: ['set', 'checked'], words: ['set', 'checked', 'not'], besideValues: ['set', 'checked', 'not'] },
  ...{ challenges: [], lists: [], others: ['done'], commands: LISTENED_FOR },
  talk: [],
}

/** The shape of a line, without its value. */
export function hearableOf({ figure }: SoundPrompt): Hearable {
  if (!figure) return { shapes: [], yesNo: false }
  const { value: _value, accept: _accept, ...spec } = figure
  return { shapes: [spec as KindSpec], yesNo: false }
}

export interface PromptHeard {
  readonly shown: string
  /** Empty where the line was left out. */
  readonly text: string
  readonly isUnderstood: boolean
  /** Five was heard as nine, or nine as five, and nothing else was wrong. */
  readonly isFiveNine: boolean
  /** Between two words of it. */
  readonly longestPauseMs: number
  /** dBFS: the loudest of it, and the room before. */
  readonly level: number
  readonly noise: number
  readonly isClipped: boolean
  /** From the tone that called the line to the first sound, where it was understood. */
  readonly waitMs?: number
}

export interface Levels {
  readonly level: number
  readonly noise: number
  readonly isClipped: boolean
}

const VALUE = responseFrom('<value> [set]')

/** `shownAt`: clock time at which the tone had called the line. */
export function promptHeard(
  line: SoundPrompt,
  heard: Heard | undefined,
  levels: Levels,
  shownAt?: number,
): PromptHeard {
  const { shown, figure, command } = line
  const text = heard?.text ?? ''
  const isUnderstood = figure
    ? judge({ response: VALUE, figures: { value: figure }, ...hypothesesOf({ text }) }).verdict === 'correct'
    : readCommand(transcriptOf(text))?.command === command
  const isCertain = isUnderstood && heard?.doubt === undefined
  return {
    ...{ shown, text, ...levels },
    isUnderstood: isCertain,
    ...(isCertain && heard && shownAt !== undefined && { waitMs: heard.beganAt - shownAt }),
    isFiveNine: figure !== undefined && !isUnderstood && isFiveNine(text, String(figure.value)),
    longestPauseMs: longestPause(heard),
  }
}

function isFiveNine(text: string, value: string): boolean {
  const said = tokensOf(text).flatMap(({ number }) => (number?.type === 'digit' ? [number.digits] : []))
  const wanted = value.replace(/\D/g, '')
  const apart = [...wanted].flatMap((digit, place) => (said[place] === digit ? [] : [[digit, said[place]]]))
  return said.length === wanted.length && apart.every((pair) => [...pair].sort().join() === '5,9')
}

function longestPause(heard: Heard | undefined): number {
  const words = heard?.words ?? []
  return words.reduce((most, word, at) => Math.max(most, word.beginMs - (words[at - 1]?.endMs ?? word.beginMs)), 0)
}

export interface Findings {
  readonly understood: number
  readonly read: number
  readonly level: 'good' | 'faint' | 'loud' | 'unknown'
  readonly room: 'quiet' | 'loud'
  /** What would suit this speaker and room; the pilot keeps it or not. */
  readonly settings: Pick<Settings, 'pauses' | 'digitsFirst' | 'fiveNine' | 'listening'> &
    Partial<Pick<Settings, 'lookTimes'>>
}

/** dBFS. Speech under the first is lost in most rooms; noise above the second, or a speaker this close to it, wants a key. */
const FAINT = -45
const LOUD_ROOM = -40
const ABOVE_ROOM_DB = 15
/** The end of an answer is looked for in pauses; who makes longer ones inside would be cut off. */
const LONG_PAUSE_MS = 300
/** Of the values read: more misunderstood than this, and numbers are asked for one by one. */
const MOST_MISHEARD = 2

export function findingsOf(lines: readonly PromptHeard[]): Findings {
  const read = lines.filter(({ text }) => text !== '')
  const values = read.filter(({ shown }) => SOUND_PROMPTS.find((line) => line.shown === shown)?.figure)
  const level = middle(read.map((line) => line.level))
  const noise = middle(read.map((line) => line.noise))
  const waits = (some: readonly PromptHeard[]) => some.flatMap(({ waitMs }) => (waitMs === undefined ? [] : [waitMs]))
  const words = read.filter((line) => !values.includes(line))
  const lookTimes = calibratedBy({ value: waits(values), word: waits(words) })
  const isLoudRoom = read.length > 0 && (noise > LOUD_ROOM || level - noise < ABOVE_ROOM_DB)
  return {
    understood: read.filter((line) => line.isUnderstood).length,
    read: read.length,
    level:
      read.length === 0 ? 'unknown' : read.some((line) => line.isClipped) ? 'loud' : level < FAINT ? 'faint' : 'good',
    room: isLoudRoom ? 'loud' : 'quiet',
    settings: {
      pauses: read.some(({ longestPauseMs }) => longestPauseMs > LONG_PAUSE_MS) ? 'long' : 'usual',
      digitsFirst: values.filter((line) => !line.isUnderstood).length > MOST_MISHEARD,
      fiveNine: read.some((line) => line.isFiveNine),
      listening: isLoudRoom ? 'push' : 'open',
      ...(lookTimes && { lookTimes }),
    },
  }
}

function middle(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? -90
}
