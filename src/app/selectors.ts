/** What screens ask of the store in more than one place, by name. */

import { entryErrors } from '../kernel/figures/entered.ts'
import type { RadioNoise } from '../kernel/run/core/events.ts'
import type { Revision } from './run/revision.ts'
import { freezeKey, type Settings } from './settings.ts'
import type { AppState, Screen } from './store.ts'

/** A run is on in this tab, flying or stopped by a bug. */
export const hasRunOn = ({ run }: AppState): boolean => run?.status === 'running' || run?.status === 'stopped'

/** Nothing is typed or taken from a sheet, where the pack has figures to enter. */
export const isEntryMissing = (state: Pick<AppState, 'draft' | 'pack'>): boolean =>
  isDraftEmpty(state) && hasEntries(state)

const hasEntries = ({ pack }: Pick<AppState, 'pack'>): boolean =>
  pack !== undefined &&
  (pack.figures.stations.length > 0 || Object.values(pack.figures.declarations).some(({ input }) => input))

export const isDraftEmpty = ({ draft: { values, loads, stated = {} } }: Pick<AppState, 'draft'>): boolean =>
  [values, loads, ...Object.values(stated)].every((one) => Object.keys(one).length === 0)

/** Something that was typed is no value: it has to be put right before the figures are accepted. */
export const hasEntryErrors = ({ pack, draft }: Pick<AppState, 'pack' | 'draft'>): boolean =>
  pack !== undefined && entryErrors(pack.figures, draft).length > 0

/** The revision in force; undefined before the first. */
export const inForce = ({ revisions }: AppState): Revision | undefined => revisions.at(-1)

/** Whether there is anything to read besides the screens. */
export const packHasPapers = ({ pack }: Pick<AppState, 'pack'>): boolean => (pack?.papers.length ?? 0) > 0

/** Whether there is anything to show on a screen; of an unknown name there is not. */
export function isScreenThere(state: AppState, screen: Screen): boolean {
  switch (screen) {
    case 'start':
    case 'packs':
    case 'runs':
    case 'progress':
    case 'settings':
    case 'room':
      return true
    case 'figures':
      return state.pack !== undefined
    case 'papers':
      return packHasPapers(state)
    case 'run':
      return state.run !== undefined
    case 'stage':
      return state.stage !== undefined
    case 'debrief':
      return state.run !== undefined || state.debrief !== undefined
    case 'grading':
      return state.grading !== undefined
    default:
      return false
  }
}

/** Keys and buttons as they count now: only a run that is shown to a room can be frozen. */
export const switchesNow = ({
  settings,
  run,
  stage,
}: Pick<AppState, 'settings' | 'run' | 'stage'>): AppState['settings']['switches'] => ({
  ...settings.switches,
  freeze: stage || run?.demonstration ? freezeKey(settings) : null,
})

/** What the voice speaks by: faster where a run is played back at speed. */
export function spokenSettings({ settings, replay, run }: Pick<AppState, 'settings' | 'replay' | 'run'>): Spoken {
  if (replay?.isPlaying) return { ...settings, rate: settings.rate * replay.speed }
  if (!run?.dial || run.status !== 'running') return settings
  const { wordsAMinute, noise } = run.dial
  return { ...settings, byRadio: { rate: wordsAMinute / VOICE_WORDS_A_MINUTE, noise } }
}

/** What a controller's voice says in a minute as it is, pauses among it: measured on clearances of 18 and 26 words. */
const VOICE_WORDS_A_MINUTE = 98

type Spoken = Settings & {
  /** Of those who are heard by radio, where they are not to sound as they always do. */
  readonly byRadio?: { readonly rate: number; readonly noise: RadioNoise }
}
