/** What an instructor can have happen in a run, and how it is told. */

import type { Inputs } from '../../figures/model.ts'

export const INJECTION_KINDS = ['paper', 'stop', 'cabin', 'deaf', 'slip', 'partner', 'start'] as const
export type InjectionKind = (typeof INJECTION_KINDS)[number]

export interface Injection {
  readonly kind: InjectionKind
  /** `paper`: what comes in, and in words what is new on it. */
  readonly sheet?: Inputs
  readonly words?: string
  /** `deaf`: for how long the ear hears nothing. */
  readonly seconds?: number
  /** `slip`, `partner`: what is wrong follows from this number. */
  readonly seed?: number
  /** `start`: an abnormal call of the start that runs, by its id; its name is in `words`. */
  readonly abnormal?: string
}

export interface Injected {
  /** Ms from the start of the run. */
  readonly t: number
  readonly order: string
  readonly by: string
  readonly given: string
  readonly what: Injection
  /** Where the run was. */
  readonly at: string
  /** It could happen there. */
  readonly isTaken: boolean
  /** `start`: which one, and how it was stopped: onset of the words, ms from the start of the run, and why. */
  readonly watch?: string
  readonly met?: { readonly at: number; readonly because: string }
}

/** In words, behind who gave it: "a new paper: trim 5.6", "a call from the cabin". */
export function injectionWords({ kind, words, seconds = 0 }: Injection): string {
  switch (kind) {
    case 'paper':
      return `a new edition of a paper${words === undefined ? '' : `: ${words}`}`
    case 'stop':
      return '"stop" from the ground crew'
    case 'cabin':
      return 'a call from the cabin'
    case 'deaf':
      return `an ear that hears nothing for ${seconds} s`
    case 'slip':
      return 'a wrong word of the controller'
    case 'partner':
      return 'a fault of the other seat'
    case 'start':
      return `gauges that show ${words ?? 'a fault'}`
  }
}

/** "The instructor: a call from the cabin, at Flap". */
export function injectedLine({ t, by, what, at, isTaken, met }: Injected): string {
  const place = at === '' ? '' : `, at ${at}`
  const told = met
    ? `; stopped after ${Math.round((met.at - t) / 1_000)} s, ${met.because}`
    : '; the start was not stopped'
  const became = isTaken ? (what.kind === 'start' ? told : '') : '; it could not happen there'
  return `${by}: ${injectionWords(what)}${place}${became}`
}
