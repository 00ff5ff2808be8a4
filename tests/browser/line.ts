/**
 * The line on which the app's voice and the pilot meet, run in the page behind the microphone: what each of them
 * says is recorded to the sample, and an answer begins a set time behind the end of a challenge.
 */

/** Sound from one silence to the next, in milliseconds of the recording. */
export interface Sound {
  readonly from: number
  readonly to: number
}

export interface Recorded {
  readonly pilot: readonly Sound[]
  readonly app: readonly Sound[]
}

declare global {
  interface Window {
    line: {
      /**
       * Says a WAV file (base64) whose first sound comes so many milliseconds after the voice has said its next text
       * to the end; for some time from that end on the page is busy with other things.
       */
      answer(base64: string, afterMs: number, busyMs?: number): Promise<void>
      record(): void
      recorded(): Promise<Recorded>
    }
  }
}

export function injectLine(): void {
  const AUDIBLE = 0.01
  /** A tick and the text behind it are farther apart. */
  const SILENCE_MS = 6

  const { room, pilot, app, say } = window.microphone.line()
  let endsAt = 0
  let spoken = () => {}

  /** When the loudspeaker has what the context had at a time of its own, as `performance.now` tells it. */
  function heardAt(context: AudioContext, contextS: number): number {
    const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp()
    return performanceTime + (contextS - contextTime) * 1000
  }

  // Where the voice plays its clips, their end is known before they have begun.
  const start = AudioBufferSourceNode.prototype.start
  AudioBufferSourceNode.prototype.start = function (when = 0, offset = 0, duration?: number) {
    const { context } = this
    if (context instanceof AudioContext && context !== room && duration !== undefined) {
      endsAt = Math.max(endsAt, heardAt(context, when + duration / this.playbackRate.value))
      queueMicrotask(() => spoken())
    }
    return duration === undefined ? start.call(this, when, offset) : start.call(this, when, offset, duration)
  }

  async function answer(base64: string, afterMs: number, busyMs = 0): Promise<void> {
    const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0))
    const buffer = await room.decodeAudioData(bytes.buffer)
    const lead = buffer.getChannelData(0).findIndex((sample) => Math.abs(sample) > AUDIBLE) / buffer.sampleRate
    if (endsAt <= performance.now()) {
      await new Promise<void>((done) => {
        spoken = done
      })
      spoken = () => {}
    }
    const source = new AudioBufferSourceNode(room, { buffer })
    say(source)
    const waitS = (endsAt + afterMs - performance.now()) / 1000
    await new Promise<void>((ended) => {
      source.onended = () => ended()
      // What is before the first sound is begun with earlier, or left out.
      source.start(room.currentTime + Math.max(0, waitS - lead), Math.max(0, lead - waitS))
      // From a little before, so that the page is told of the end only when it is free again.
      const freeAt = endsAt + busyMs
      const keepBusy = () => {
        while (performance.now() < freeAt);
      }
      if (busyMs > 0) setTimeout(keepBusy, endsAt - 100 - performance.now())
    })
  }

  let recorder: MediaRecorder | undefined
  let chunks: Blob[] = []

  function record(): void {
    const both = new MediaStreamAudioDestinationNode(room, { channelCount: 2 })
    const merger = new ChannelMergerNode(room, { numberOfInputs: 2 })
    pilot.connect(merger, 0, 0)
    app.connect(merger, 0, 1)
    merger.connect(both)
    chunks = []
    recorder = new MediaRecorder(both.stream, { mimeType: 'audio/webm;codecs=pcm' })
    recorder.ondataavailable = ({ data }) => chunks.push(data)
    recorder.start()
  }

  async function recorded(): Promise<Recorded> {
    await new Promise((stopped) => {
      recorder?.addEventListener('stop', stopped)
      recorder?.stop()
    })
    const sound = await room.decodeAudioData(await new Blob(chunks).arrayBuffer())
    return { pilot: soundsIn(sound, 0), app: soundsIn(sound, 1) }
  }

  function soundsIn(sound: AudioBuffer, channel: number): Sound[] {
    const msOf = (sample: number) => (sample / sound.sampleRate) * 1000
    const sounds: { from: number; to: number }[] = []
    sound.getChannelData(channel).forEach((sample, at) => {
      if (Math.abs(sample) < AUDIBLE) return
      const last = sounds.at(-1)
      if (last && msOf(at) - last.to < SILENCE_MS) last.to = msOf(at)
      else sounds.push({ from: msOf(at), to: msOf(at) })
    })
    return sounds
  }

  window.line = { answer, record, recorded }
}
