/** Settings of the person at this browser, their defaults, and how they are kept. */

import type { Phraseology } from '../kernel/kinds/kind.ts'
import type { CueMode, DemonstrationStops, Dial, FlowMode, ReadBackMode, RolesMode } from '../kernel/run/core/events.ts'
import type { LookTimes } from '../kernel/run/debrief/look/lookTimes.ts'
import type { Dosed } from '../kernel/run/partner/dose.ts'
import type { Binding, SwitchName } from '../ports.ts'

export interface Settings {
  readonly phraseology: Phraseology
  /** Misses on one item before the voice coaches; 0: never. */
  readonly coachAfter: number
  /** How the steps of flows are helped with. */
  readonly flows: FlowMode
  /** Engine start calls are answered with their times. */
  readonly timesAloud: boolean
  /** Otherseat keeps to itself what new figures change until a list would be complete. */
  readonly lateCatch: boolean
  /** Where the pack wants it, the pilot's own value is asked for first. */
  readonly ownValues: boolean
  /** Who challenges and who answers. */
  readonly roles: RolesMode
  /** Who reads back what a controller says. */
  readonly readBacks: ReadBackMode
  /** Otherseat and the controllers err, and nobody says when. */
  readonly partnerErrs: boolean
  /** Interruptions on purpose, with or without a cue to hold on to. */
  readonly breaks: 'off' | CueMode
  /** What was caught in runs so far, oldest first: how often the partner errs follows from it. */
  readonly partnerRuns: readonly Dosed[]
  readonly theme: 'system' | 'dark' | 'light'
  /** Name of an ear (`EarOffer`), or `typing` for none. */
  readonly ear: string
  /** The device's ear has a second model rescore what it heard. */
  readonly secondModel: boolean
  /** Allowed explicitly: the browser may send what is said to its maker. */
  readonly soundMayLeave: boolean
  /** Open microphone, or only while the talk key is held. */
  readonly listening: 'open' | 'push'
  /** The voice is in the pilot's ear alone: it may be interrupted. */
  readonly isHeadset: boolean
  /** Where a run that is demonstrated to a room freezes by itself, and whether an answer waits for its verdict. */
  readonly roomStops: DemonstrationStops
  readonly asksRoom: boolean
  readonly switches: Readonly<Record<SwitchName, Binding | null>>
  /** Play and pause of a headset talk, next confirms. */
  readonly mediaKeys: boolean
  /** Of this speaker: long ones inside an answer must not end it. */
  readonly pauses: 'usual' | 'long'
  /** Single digits are asked for at the first misunderstanding. */
  readonly digitsFirst: boolean
  /** Five and nine count as "fife" and "niner", or said twice. */
  readonly fiveNine: boolean
  /** The sound of what is said in runs is kept on this device. */
  readonly keepsSound: boolean
  /** This speaker's times to look and answer, from the sound check and the runs since; null before the first. */
  readonly lookTimes: LookTimes | null
  /** The run that they took in last; empty before the first. */
  readonly lookTimesFrom: string
  /** Devices by the browser's name for them; empty: the system's. */
  readonly microphone: string
  readonly output: string
  /** Name of a voice of the browser, or `embedded`; empty: the best one there is. */
  readonly voice: string
  readonly rate: number
  /** Controllers, the broadcast and the ground crew have voices; without them their part is left out. */
  readonly stations: boolean
  /** Whose words stations use. */
  readonly radio: 'icao' | 'faa'
  /** Once in a run a controller errs, and the pilot is meant to notice. */
  readonly wrongHearBacks: boolean
  /** Stations sound as on a radio, where the voice is the app's own. */
  readonly radioSound: boolean
  /** How read-backs are put where they are drilled alone. */
  readonly dial: Dial
  /** The three sentences of the first visit were read. */
  readonly welcomed: boolean
}

export const DEFAULT_SETTINGS: Settings = {
  phraseology: 'plain',
  coachAfter: 3,
  flows: 'shown',
  timesAloud: false,
  lateCatch: false,
  ownValues: true,
  roles: 'pilotAnswers',
  readBacks: 'pilot',
  partnerErrs: false,
  breaks: 'off',
  partnerRuns: [],
  theme: 'system',
  ear: 'device',
  secondModel: true,
  soundMayLeave: false,
  listening: 'open',
  isHeadset: false,
  pauses: 'usual',
  digitsFirst: false,
  fiveNine: false,
  keepsSound: false,
  lookTimes: null,
  lookTimesFrom: '',
  microphone: '',
  output: '',
  switches: { talk: null, radio: null, confirm: null, freeze: null },
  roomStops: 'answers',
  asksRoom: false,
  mediaKeys: false,
  voice: '',
  rate: 1,
  stations: true,
  radio: 'icao',
  wrongHearBacks: false,
  radioSound: true,
  dial: {
    ...{ wordsAMinute: 100, noise: 'light', likeCallSigns: false, steppedOn: false },
    ...{ standBy: false, handOvers: false, amendments: false },
  },
  welcomed: false,
}

/** What stops a demonstration and goes on, unless another key was chosen for it. */
const SPACE: Binding = { type: 'key', code: 'Space', label: 'Space' }

/** The key that freezes a run, where one may be. */
export const freezeKey = ({ switches }: Pick<Settings, 'switches'>): Binding => switches.freeze ?? SPACE

/** One key does one thing: whatever had it before loses it. */
export function withSwitch(switches: Settings['switches'], name: SwitchName, binding: Binding): Settings['switches'] {
  const others = Object.entries(switches).map(([other, old]) => [other, old && isSame(old, binding) ? null : old])
  return { ...Object.fromEntries(others), [name]: binding }
}

export function isSame(one: Binding, other: Binding): boolean {
  if (one.type === 'key') return other.type === 'key' && one.code === other.code
  return other.type === 'button' && one.pad === other.pad && one.button === other.button
}

/** As a pilot would name it; pads report their maker's numbers after their names. */
export function nameOfBinding(binding: Binding | null): string {
  if (!binding) return 'none'
  if (binding.type === 'key') return binding.label
  return `button ${binding.button + 1} of ${binding.pad.replace(/\s*\(.*$/, '') || 'the pad'}`
}

const KEY = 'otherseat.settings'

type Keep = Pick<Storage, 'getItem' | 'setItem'>

/** From the forms of earlier editions. */
function brought(kept: object): object {
  if (!('weighs' in kept)) return kept
  const { weighs, ...rest } = kept
  return { secondModel: weighs, ...rest }
}

/** Defaults where nothing is kept, what is kept cannot be read, or storage is refused. */
export function readSettings(storage: Keep | undefined): Settings {
  try {
    const kept: unknown = JSON.parse(storage?.getItem(KEY) ?? '{}')
    return typeof kept === 'object' && kept !== null ? { ...DEFAULT_SETTINGS, ...brought(kept) } : DEFAULT_SETTINGS
  } catch {
    return DEFAULT_SETTINGS
  }
}

/** Settings that cannot be kept hold until the page is left; nothing of a run depends on them. */
export function writeSettings(storage: Keep | undefined, settings: Settings): void {
  try {
    storage?.setItem(KEY, JSON.stringify(settings))
  } catch {
    // Refused or full: nothing to do about a preference.
  }
}
