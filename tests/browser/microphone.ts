/**
 * The page's microphone in tests, run in the page before the app: a quiet line into which a test plays
 * what a pilot says, and if asked the app's own sound as well, as a loudspeaker's echo would.
 * Everything is inside the one function, for it is sent to the browser as text.
 */

export interface MicrophoneOptions {
  readonly is: 'there' | 'refused' | 'missing'
  /** How much of what the app plays comes back; 0 for none. */
  readonly echo: number
}

declare global {
  interface Window {
    /** Plays a WAV file (base64) into the microphone; resolves when it has ended. */
    speakWav(base64: string): Promise<void>
  }
}

export function injectMicrophone({ is, echo }: MicrophoneOptions): void {
  const NOISE = 0.0005
  const ECHO_DELAY_S = 0.03

  const replace = (getUserMedia: () => Promise<MediaStream>) =>
    Object.defineProperty(MediaDevices.prototype, 'getUserMedia', { value: getUserMedia, configurable: true })

  if (is !== 'there') {
    const name = is === 'refused' ? 'NotAllowedError' : 'NotFoundError'
    replace(() => Promise.reject(new DOMException(`the microphone is ${is}`, name)))
    return
  }

  const room = new AudioContext()
  const line = room.createMediaStreamDestination()
  const hiss = room.createBuffer(1, room.sampleRate * 2, room.sampleRate)
  hiss.getChannelData(0).forEach((_, at, samples) => {
    samples[at] = (Math.random() * 2 - 1) * NOISE
  })
  const floor = new AudioBufferSourceNode(room, { buffer: hiss, loop: true })
  floor.connect(line)
  floor.start()

  replace(async () => {
    await room.resume()
    return line.stream.clone()
  })

  window.speakWav = async (base64) => {
    await room.resume()
    const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0))
    const source = new AudioBufferSourceNode(room, { buffer: await room.decodeAudioData(bytes.buffer) })
    source.connect(line)
    await new Promise<void>((ended) => {
      source.onended = () => ended()
      source.start()
    })
  }

  if (echo <= 0) return
  const taps = new WeakMap<BaseAudioContext, MediaStreamAudioDestinationNode>()
  const connect = AudioNode.prototype.connect as (...args: unknown[]) => AudioNode
  const tapOf = (context: AudioContext) => {
    const known = taps.get(context)
    if (known) return known
    const tap = context.createMediaStreamDestination()
    taps.set(context, tap)
    const back = room.createMediaStreamSource(tap.stream)
    const delay = new DelayNode(room, { delayTime: ECHO_DELAY_S })
    const gain = new GainNode(room, { gain: echo })
    connect.call(back, delay)
    connect.call(delay, gain)
    connect.call(gain, line)
    return tap
  }
  AudioNode.prototype.connect = function (this: AudioNode, ...args: unknown[]) {
    const [to] = args
    if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
      connect.call(this, tapOf(this.context))
    }
    return connect.apply(this, args)
  } as AudioNode['connect']
}
