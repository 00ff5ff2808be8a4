/**
 * The page's microphone in tests, run in the page before the app: a quiet line into which a test plays
 * what a pilot says, and if asked the app's own sound as well, as a loudspeaker's echo would.
 * Everything is inside the one function, for it is sent to the browser as text.
 */

export interface MicrophoneOptions {
  /** `unknown`: the browser gives pages none. */
  readonly is: 'there' | 'refused' | 'missing' | 'unknown'
  /** How much of what the app plays comes back; 0 for none. */
  readonly echo: number
  /** What pilot and app say can be had apart (see `line.ts`). */
  readonly hasLine: boolean
}

declare global {
  interface Window {
    /** Plays a WAV file (base64) into the microphone; resolves when it has ended. */
    speakWav(base64: string): Promise<void>
    microphone: TestMicrophone
    /** Workers, those of the second model apart, and sound outputs that the page has made, oldest first. */
    made: { readonly workers: Worker[]; readonly rescorers: Worker[]; readonly contexts: AudioContext[] }
  }
}

/** What may happen to a microphone. */
export interface TestMicrophone {
  /** As when its plug is pulled. */
  unplug(): void
  /** As when the system takes its sound away, or gives it back. */
  mute(isMuted: boolean): void
  /** From the next opening on it is not given, for a reason by the browser's name; undefined: it is given again. */
  refuse(name: string | undefined): void
  /**
   * Another one from the next opening on; with two channels the pilot is on the second. `isOwnRate`: as in a browser
   * that takes a sound only at its own rate, so that the app must convert it.
   */
  change(rate: number, channels: 1 | 2, isOwnRate?: boolean): void
  /** What the pilot says and what the app plays, each by itself, in the room of the first microphone. */
  line(): {
    readonly room: AudioContext
    readonly pilot: AudioNode
    readonly app: AudioNode
    /** Makes a sound the pilot's. */
    say(source: AudioNode): void
  }
}

export function injectMicrophone({ is, echo, hasLine }: MicrophoneOptions): void {
  const NOISE = 0.0005
  const ECHO_DELAY_S = 0.03

  // An empty page has no microphone to replace.
  if (typeof MediaDevices === 'undefined') return
  const replace = (getUserMedia: () => Promise<MediaStream>) =>
    Object.defineProperty(MediaDevices.prototype, 'getUserMedia', { value: getUserMedia, configurable: true })

  if (is === 'unknown') {
    Object.defineProperty(Navigator.prototype, 'mediaDevices', { value: undefined })
    return
  }
  if (is !== 'there') {
    const name = is === 'refused' ? 'NotAllowedError' : 'NotFoundError'
    replace(() => Promise.reject(new DOMException(`the microphone is ${is}`, name)))
    return
  }

  const made = { workers: [] as Worker[], rescorers: [] as Worker[], contexts: [] as AudioContext[] }
  window.made = made
  window.Worker = class extends Worker {
    constructor(...args: ConstructorParameters<typeof Worker>) {
      super(...args)
      if (args[1]?.name === 'rescorer') made.rescorers.push(this)
      else made.workers.push(this)
    }
  }
  const PlainContext = AudioContext
  let onlyRate: number | undefined
  window.AudioContext = class extends AudioContext {
    constructor(options?: AudioContextOptions) {
      super(options ?? (onlyRate === undefined ? undefined : { sampleRate: onlyRate }))
      made.contexts.push(this)
    }
    override createMediaStreamSource(stream: MediaStream) {
      if (onlyRate === undefined || this.sampleRate === onlyRate) return super.createMediaStreamSource(stream)
      throw new DOMException('another sampling rate', 'NotSupportedError')
    }
  }

  const furnish = (room: AudioContext, channels: number) => {
    const line = new MediaStreamAudioDestinationNode(room, { channelCount: channels })
    const hiss = room.createBuffer(1, room.sampleRate * 2, room.sampleRate)
    hiss.getChannelData(0).forEach((_, at, samples) => {
      samples[at] = (Math.random() * 2 - 1) * NOISE
    })
    const floor = new AudioBufferSourceNode(room, { buffer: hiss, loop: true })
    floor.connect(line)
    floor.start()
    const seat = new ChannelMergerNode(room, { numberOfInputs: 2 })
    if (channels > 1) seat.connect(line)
    return {
      line,
      speakInto: (source: AudioNode) => (channels > 1 ? source.connect(seat, 0, 1) : source.connect(line)),
    }
  }
  const room = new PlainContext()
  let { line, speakInto } = furnish(room, 1)
  let current = room
  const pilot = new GainNode(room)
  const app = new GainNode(room)
  const given: MediaStreamTrack[] = []

  let refusal: string | undefined
  replace(async () => {
    if (refusal !== undefined) throw new DOMException('not given', refusal)
    await current.resume()
    const stream = line.stream.clone()
    given.push(...stream.getTracks())
    return stream
  })

  window.microphone = {
    unplug() {
      for (const track of given.splice(0)) {
        track.stop()
        track.dispatchEvent(new Event('ended'))
      }
    },
    mute(isMuted) {
      for (const track of given) {
        Object.defineProperty(track, 'muted', { value: isMuted, configurable: true })
        track.dispatchEvent(new Event(isMuted ? 'mute' : 'unmute'))
      }
    },
    refuse(name) {
      refusal = name
    },
    change(rate, channels, isOwnRate = false) {
      current = new PlainContext({ sampleRate: rate })
      onlyRate = isOwnRate ? rate : undefined
      ;({ line, speakInto } = furnish(current, channels))
    },
    line: () => ({ room, pilot, app, say }),
  }

  function say(source: AudioNode): void {
    if (source.context === room) source.connect(pilot)
    speakInto(source)
  }

  window.speakWav = async (base64) => {
    await current.resume()
    const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0))
    const source = new AudioBufferSourceNode(current, { buffer: await current.decodeAudioData(bytes.buffer) })
    say(source)
    await new Promise<void>((ended) => {
      source.onended = () => ended()
      source.start()
    })
  }

  if (echo <= 0 && !hasLine) return
  if (echo > 0) {
    app
      .connect(new DelayNode(room, { delayTime: ECHO_DELAY_S }))
      .connect(new GainNode(room, { gain: echo }))
      .connect(line)
  }
  const taps = new WeakMap<BaseAudioContext, MediaStreamAudioDestinationNode>()
  const connect = AudioNode.prototype.connect as (...args: unknown[]) => AudioNode
  const tapOf = (context: AudioContext) => {
    const known = taps.get(context)
    if (known) return known
    const tap = context.createMediaStreamDestination()
    taps.set(context, tap)
    connect.call(room.createMediaStreamSource(tap.stream), app)
    return tap
  }
  AudioNode.prototype.connect = function (this: AudioNode, ...args: unknown[]) {
    const [to] = args
    if (to instanceof AudioDestinationNode && this.context instanceof PlainContext) {
      connect.call(this, tapOf(this.context))
    }
    return connect.apply(this, args)
  } as AudioNode['connect']
}
