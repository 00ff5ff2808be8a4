/** All ears, by the names that the settings keep. To add one: its own file, and its line here. */

import type { Ear, EarOffer } from '../../ports.ts'
import { BROWSER_EAR } from './browser/browserEar.ts'
import { createChosenEar } from './chooseEar.ts'
import { DEVICE_EAR } from './device/deviceEar.ts'
import type { EarKind, EarOptions } from './ear.ts'

const EARS = { device: DEVICE_EAR, browser: BROWSER_EAR } satisfies Readonly<Record<string, EarKind>>

/** The ear that the settings choose; the device's where that fails. */
export function createEar(options: EarOptions): Ear {
  return createChosenEar({ ...options, ears: EARS, fallback: 'device' })
}

/** Those that this browser has. */
export async function earOffers(): Promise<readonly EarOffer[]> {
  const offers = Object.entries(EARS).map(async ([name, { offer }]) => {
    const offered = await offer()
    return offered ? [{ name, ...offered }] : []
  })
  return (await Promise.all(offers)).flat()
}
