/**
 * Who is calling. Every transmission to a controller has the call sign: ICAO Annex 10 volume II 5.2.1.5.8 (as SERA.14075
 * (a) has it, looked up), FAA AIM 4-2-1 b (looked up). Where the phraseology is plain one without it is taken, and counted.
 */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange } from '../../pack/exchange.ts'
import type { Judgement } from '../../response/model.ts'
import { NOTHING, optionalFigures, type Response } from '../../response/response.ts'
import type { RunState } from '../core/state.ts'

/** The figure that is this flight's call sign; undefined where there is none, or nobody to whom it is said. */
export function callSignFor({ figures }: Pack, { station }: Pick<Exchange, 'station'>): string | undefined {
  if (station.role !== 'controller') return undefined
  return Object.values(figures.declarations).find(({ spec }) => spec.kind === 'callsign')?.name
}

/** It may be said with anything that a controller hears. */
export function callSignBeside(pack: Pack, exchange: Exchange): Response {
  const name = callSignFor(pack, exchange)
  if (name === undefined) return NOTHING
  const known = besides.get(name) ?? optionalFigures([name])
  besides.set(name, known)
  return known
}
const besides = new Map<string, Response>()

/** What was understood, and by whom it was not said. */
export function isUnsigned({ verdict, parts }: Judgement, callSign: string | undefined): boolean {
  const isUnderstood = verdict !== 'sayAgain' && verdict !== 'command'
  return (
    callSign !== undefined && isUnderstood && !parts.some(({ name, state }) => name === callSign && state !== 'missing')
  )
}

/** Where the phraseology asks for more than plain words, nothing is right without the call sign. */
export function signed(pack: Pack, { settings }: RunState, exchange: Exchange, judgement: Judgement): Judgement {
  const callSign = callSignFor(pack, exchange)
  if (settings.phraseology === 'plain' || callSign === undefined || !isUnsigned(judgement, callSign)) return judgement
  if (judgement.verdict === 'negative') return judgement
  const parts = judgement.parts.filter(({ name }) => name !== callSign)
  return {
    ...judgement,
    verdict: 'incomplete',
    because: judgement.because ?? 'missing',
    parts: [...parts, { name: callSign, kind: 'figure', state: 'missing' }],
  }
}
