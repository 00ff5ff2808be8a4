/** Microphones and outputs that may be chosen. Browsers name them only to pages that may use a microphone. */

import type { SoundDevices } from '../ports.ts'

export async function soundDevices(): Promise<SoundDevices> {
  const all = await navigator.mediaDevices?.enumerateDevices().catch(() => [])
  const of = (kind: MediaDeviceKind) =>
    (all ?? [])
      .filter((device) => device.kind === kind && device.deviceId !== '' && device.label !== '')
      .map(({ deviceId, label }) => ({ id: deviceId, name: label }))
  return { microphones: of('audioinput'), outputs: 'setSinkId' in AudioContext.prototype ? of('audiooutput') : [] }
}
