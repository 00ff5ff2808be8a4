/** Where the embedded voices' recordings and synthesisers are served; a role's is fetched only when that voice is to speak. */

import type { Role } from '../../kernel/pack/roles.ts'
import type { Recording } from './embeddedVoice.ts'

/** Files of their own, however small: what is written into the code the page may not fetch. */
const FILES = import.meta.glob<string>('../../../audio/voice/*.{json,mp3,wasm}', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
})

export async function fetchRecording(role: Role): Promise<{ recording: Recording; bytes: ArrayBuffer }> {
  const [recording, bytes] = await Promise.all([
    got(`${role}.json`).then((response) => response.json() as Promise<Recording>),
    got(`${role}.mp3`).then((response) => response.arrayBuffer()),
  ])
  return { recording, bytes }
}

/** The synthesiser with the role's voice, as WebAssembly. */
export async function fetchSynthesiser(role: Role): Promise<ArrayBuffer> {
  return (await got(`${role}.wasm`)).arrayBuffer()
}

async function got(name: string): Promise<Response> {
  const url = FILES[`../../../audio/voice/${name}`]
  if (url === undefined) throw new Error(`${name} was not built in`)
  const response = await fetch(url)
  if (!response.ok) throw new Error(`${url}: ${response.status}`)
  return response
}
