/** Cockpit-like noise: rumble, airflow and hum, mixed under speech at a given ratio. Repeatable. */

import { rms, speechRms } from '../../adapters/ear/level.ts'
import { randomFrom } from './earCases.ts'

const RATE = 16000

/** Brown noise to about 1200 Hz, pinkish airflow above, and the hum of inverters and fans (73, 146, 219, 400 Hz). */
export function cockpitNoise(samples: number, seed: number): Float32Array {
  const random = randomFrom(seed)
  let [brown, last, slow, fast] = [0, 0, 0, 0]
  return new Float32Array(samples).map((_, at) => {
    const white = random() * 2 - 1
    brown = 0.97 * brown + 0.12 * white
    const rumble = brown - last
    last += 0.016 * (brown - last)
    slow += 0.12 * (white - slow)
    fast += 0.85 * (white - fast)
    const hum = [73, 146, 219, 400].reduce(
      (sum, hertz, index) => sum + Math.sin((2 * Math.PI * hertz * at) / RATE) / (index + 2),
      0,
    )
    return rumble + 0.35 * (fast - slow) + 0.08 * hum
  })
}

/** The ratio is that of the speech's loudest 40 % of frames to the noise, in dB; three quarters of a second of noise lead in. */
export function inNoise(pcm: Float32Array, ratioDb: number, seed: number): Float32Array {
  const lead = RATE * 0.75
  const noise = cockpitNoise(pcm.length + lead, seed)
  const gain = speechRms(pcm) / rms(noise) / 10 ** (ratioDb / 20)
  return noise.map((sample, at) => sample * gain + (pcm[at - lead] ?? 0))
}
