/** The pilot's answers of the demo departure, as spoken by two free synthetic voices; check data, nothing is tuned on it. */

export interface SpokenAnswer {
  readonly file: string
  readonly text: string
  readonly voice: 'rms' | 'kal'
}

export const answer = (file: string, text: string, voice: SpokenAnswer['voice'] = 'rms'): SpokenAnswer => ({
  file,
  text,
  voice,
})

/** On preliminary figures. */
export const PRELIMINARY_ANSWERS: readonly SpokenAnswer[] = [
  answer('call-figures', 'load figures list'),
  answer('zfw-preliminary', 'two four three six zero'),
  answer('trim-preliminary', 'four point three up', 'kal'),
  answer('v1-preliminary', 'one two six'),
  answer('vr-preliminary', 'one three two'),
  answer('v2-preliminary', 'one three nine', 'kal'),
  answer('thrust', 'nine zero point four percent'),
  answer('load-sheet-preliminary', 'edition one seven zero on board'),
]

/** After the final figures: the flow that sets what has changed, then what is open again. */
export const FINAL_ANSWERS: readonly SpokenAnswer[] = [
  answer('flow-complete', 'flow complete'),
  answer('zfw-final', 'two four six two zero'),
  answer('trim-final', 'three point one up set'),
  answer('v1-final', 'one two eight', 'kal'),
  answer('vr-final', 'one three four'),
  answer('v2-final', 'one four one'),
  answer('load-sheet-final', 'edition two seven two on board'),
]

/** The calls of an engine start behind its beginning. */
const ENGINE_CALLS: readonly SpokenAnswer[] = [
  answer('turning', 'engine turning', 'kal'),
  answer('fuel-on', 'fuel is on'),
  answer('light-up', 'we have light up', 'kal'),
  answer('oil', 'oil pressure rising'),
  answer('starter-out', 'starter is out', 'kal'),
  answer('stable', 'engine stable five eight percent'),
]

export const LISTS: readonly SpokenAnswer[] = [
  answer('call-before-start', 'before start list'),
  answer('brake', 'brake set', 'kal'),
  answer('signs', 'signs on'),
  answer('fuel-required', 'four eight eight zero kilograms'),
  answer('fuel', 'five six four zero kilograms'),
  answer('altimeters', 'one zero zero nine set', 'kal'),
  answer('transponder', 'code four two seven one'),
  answer('push', 'we are cleared to push'),
  answer('doors', 'all closed slides armed', 'kal'),
  answer('beacon', 'beacon on'),
  answer('pumps', 'all pumps on'),
  answer('start-right', 'starting the right engine'),
  ...ENGINE_CALLS,
  answer('start-left', 'starting the left engine', 'kal'),
  ...ENGINE_CALLS,
  answer('call-push-and-start', 'push and start list'),
  answer('crew', 'brake set tug away', 'kal'),
  answer('engines', 'both engines stable'),
  answer('call-engines-running', 'engines running list'),
  answer('generators', 'both on'),
  answer('ice', 'both off', 'kal'),
  answer('ignition', 'ignition off'),
  answer('ground', 'tow bar clear pin in hand', 'kal'),
  answer('flap', 'flap twelve set'),
  answer('unit', 'unit off', 'kal'),
  answer('call-ready', 'ready for taxi list'),
  answer('controls', 'full left full right'),
  answer('weight', 'three zero zero eight zero'),
  answer('cg', 'two seven point three'),
  answer('trim-taxi', 'three point one up', 'kal'),
  answer('three-speeds', 'v one one two eight rotate one three four v two one four one'),
  answer('thrust', 'nine zero point four percent'),
  answer('runway', 'runway two four', 'kal'),
  answer('pressure-value', 'two thousand nine hundred'),
  answer('cabin', 'cabin ready'),
  answer('configuration', 'configuration normal'),
]

/** What a quick list needs besides, so that all of it is in one voice. */
export const SAME_VOICE: readonly SpokenAnswer[] = [
  answer('v1-final-rms', 'one two eight'),
  answer('brake-rms', 'brake set'),
  answer('altimeters-rms', 'one zero zero nine set'),
  answer('doors-rms', 'all closed slides armed'),
]
