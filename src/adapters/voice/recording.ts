/** Where the embedded voice's recording is served; fetched only when that voice is to speak. */

import indexUrl from '../../../audio/voice/otherseat.json?url'
import soundUrl from '../../../audio/voice/otherseat.mp3?url'
import type { Recording } from './embeddedVoice.ts'

export async function fetchRecording(): Promise<{ recording: Recording; bytes: ArrayBuffer }> {
  const [recording, bytes] = await Promise.all([
    got(indexUrl).then((response) => response.json() as Promise<Recording>),
    got(soundUrl).then((response) => response.arrayBuffer()),
  ])
  return { recording, bytes }
}

async function got(url: string): Promise<Response> {
  const response = await fetch(url)
  if (!response.ok) throw new Error(`${url}: ${response.status}`)
  return response
}
