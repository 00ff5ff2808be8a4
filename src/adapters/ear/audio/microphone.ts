/** The microphone and its way to the audio thread. Every failure has a line that says what to do. */

import type { Clock, EarFailure } from '../../../ports.ts'
import workletUrl from './capture.worklet.ts?worker&url'

export interface Microphone {
  /** Where the audio thread's frames come out. */
  readonly frames: MessagePort
  /** The browser lets it run, and its clock goes on. */
  isRunning(): boolean
  resume(): Promise<void>
  close(): Promise<void>
}

export type OpenedMicrophone = { readonly microphone: Microphone } | { readonly failure: EarFailure }

const TYPING = 'Typing and the buttons work meanwhile.'

/** A system that takes the microphone for a moment (a call, a switch of devices) gives it back within this. */
const MUTED_MS = 1_500

/** It takes a moment; what has not started by then is told, so that nobody waits for it. */
const STARTS_WITHIN_MS = 10_000

/** `lost` is called when the microphone goes away afterwards. Never rejects. */
export async function openMicrophone(
  clock: Clock,
  deviceId: string,
  lost: (failure: EarFailure) => void,
): Promise<OpenedMicrophone> {
  if (!navigator.mediaDevices?.getUserMedia || typeof AudioWorkletNode === 'undefined') {
    const message = `This browser gives pages no microphone here; open the page over https or on localhost. ${TYPING}`
    return { failure: { code: 'unsupported', message } }
  }
  let stream: MediaStream
  try {
    // Its noise suppression gates pauses to digital silence, which the acoustic model does not know.
    const audio = { channelCount: 1, echoCancellation: false, noiseSuppression: false, autoGainControl: false }
    // Another one where the chosen one is not plugged in: the screen has its name.
    stream = await navigator.mediaDevices.getUserMedia({ audio: deviceId ? { ...audio, deviceId } : audio })
  } catch (error) {
    return { failure: refusal(error) }
  }
  for (const track of stream.getAudioTracks()) watchTrack(track, clock, lost)
  const wiring = wired(stream)
  const microphone = await Promise.race([wiring, waited(clock, STARTS_WITHIN_MS)]).catch(() => undefined)
  if (!microphone) {
    for (const track of stream.getTracks()) track.stop()
    void wiring.then(
      ({ close }) => close(),
      () => {},
    )
    const message = `The browser's sound did not start; close other programs that use sound, then open the ear again. ${TYPING}`
    return { failure: { code: 'audio', message } }
  }
  return { microphone }
}

const waited = (clock: Clock, ms: number) => new Promise<undefined>((done) => clock.after(ms, () => done(undefined)))

function watchTrack(track: MediaStreamTrack, clock: Clock, lost: (failure: EarFailure) => void): void {
  track.addEventListener('ended', () => {
    lost({ code: 'lost', message: `The microphone is gone; plug it in again, or choose another one. ${TYPING}` })
  })
  const mute = () => {
    clock.after(MUTED_MS, () => {
      if (!track.muted || track.readyState === 'ended') return
      const message = `The system has muted the microphone; let it hear again, then open the ear again. ${TYPING}`
      lost({ code: 'muted', message })
    })
  }
  track.addEventListener('mute', mute)
  if (track.muted) mute()
}

async function wired(stream: MediaStream): Promise<Microphone> {
  const { context, source } = connected(stream)
  await context.audioWorklet.addModule(workletUrl)
  const options = { numberOfInputs: 1, numberOfOutputs: 0, channelCount: 1, channelCountMode: 'explicit' } as const
  const node = new AudioWorkletNode(context, 'capture', options)
  const { port1, port2 } = new MessageChannel()
  node.port.postMessage(port1, [port1])
  source.connect(node)
  const resume = async () => {
    if (context.state !== 'running') await context.resume()
  }
  // Without a gesture on the page this may stay pending for ever; the first touch or key starts it then.
  resume().catch(() => {})
  const wake = () => {
    resume().catch(() => {})
  }
  for (const gesture of ['pointerdown', 'keydown']) document.addEventListener(gesture, wake)
  // Another program that took the sound may have stopped it.
  context.addEventListener('statechange', wake)
  let clockWas = -1
  return {
    frames: port2,
    isRunning() {
      const before = clockWas
      clockWas = context.currentTime
      return context.state === 'running' && clockWas !== before
    },
    resume,
    async close() {
      for (const gesture of ['pointerdown', 'keydown']) document.removeEventListener(gesture, wake)
      context.removeEventListener('statechange', wake)
      for (const track of stream.getTracks()) track.stop()
      await context.close()
    },
  }
}

/** At 16 kHz where the browser lets a stream of another rate in; else at its own, and the worklet converts. */
function connected(stream: MediaStream): { context: AudioContext; source: MediaStreamAudioSourceNode } {
  const context = new AudioContext({ sampleRate: 16000 })
  try {
    return { context, source: context.createMediaStreamSource(stream) }
  } catch {
    context.close()
    const plain = new AudioContext()
    return { context: plain, source: plain.createMediaStreamSource(stream) }
  }
}

function refusal(error: unknown): EarFailure {
  const name = error instanceof DOMException ? error.name : ''
  if (name === 'NotAllowedError' || name === 'SecurityError') {
    const message = `The microphone is not allowed; allow it at the padlock beside the address, then open the ear again. ${TYPING}`
    return { code: 'refused', message }
  }
  if (name === 'NotFoundError' || name === 'OverconstrainedError') {
    const message = `No microphone was found; plug one in, then open the ear again. ${TYPING}`
    return { code: 'noMicrophone', message }
  }
  const message = `The microphone does not start, another program may hold it; close that, then open the ear again. ${TYPING}`
  return { code: 'audio', message }
}
