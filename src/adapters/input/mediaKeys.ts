/**
 * The keys of a headset, by the Media Session API: they reach a page behind a full-screen window too. A browser
 * sends them only to a page that plays something, so a silence is played on and on while they are wanted.
 */

import type { SwitchEvent } from '../../ports.ts'

export interface MediaKeys {
  /** To be called in a gesture; no sound may be played before one. */
  use(isWanted: boolean): void
}

const SILENCE_S = 6

export function createMediaKeys(pressed: (event: SwitchEvent) => void): MediaKeys {
  let player: HTMLAudioElement | undefined
  const once = (name: 'talk' | 'confirm') => () => {
    // The browser believes that it paused us: the next press must come as well.
    void player?.play().catch(() => undefined)
    pressed({ name, isDown: true, isOnce: true })
  }
  const keys = { play: once('talk'), pause: once('talk'), nexttrack: once('confirm'), togglemicrophone: once('talk') }

  function set(isWanted: boolean): void {
    for (const [action, handler] of Object.entries(keys)) {
      // Not every browser knows every action, and one that does not throws.
      try {
        navigator.mediaSession?.setActionHandler(action as MediaSessionAction, isWanted ? handler : null)
      } catch {}
    }
  }

  return {
    use(isWanted) {
      if (!('mediaSession' in navigator) || isWanted === (player !== undefined)) return
      set(isWanted)
      if (!isWanted) {
        player?.pause()
        player = undefined
        return
      }
      player = new Audio(silence(SILENCE_S))
      player.loop = true
      navigator.mediaSession.metadata = new MediaMetadata({ title: 'Otherseat listens' })
      void player.play().catch(() => undefined)
    },
  }
}

/** Mono, 8 bit, 8 kHz, as an address. */
function silence(seconds: number): string {
  const length = seconds * 8_000
  const bytes = new Uint8Array(44 + length).fill(128)
  const head = new DataView(bytes.buffer)
  const text = (at: number, letters: string) => {
    for (const [place, letter] of [...letters].entries()) head.setUint8(at + place, letter.charCodeAt(0))
  }
  text(0, 'RIFF')
  head.setUint32(4, 36 + length, true)
  text(8, 'WAVEfmt ')
  head.setUint32(16, 16, true)
  head.setUint16(20, 1, true)
  head.setUint16(22, 1, true)
  head.setUint32(24, 8_000, true)
  head.setUint32(28, 8_000, true)
  head.setUint16(32, 1, true)
  head.setUint16(34, 8, true)
  text(36, 'data')
  head.setUint32(40, length, true)
  return URL.createObjectURL(new Blob([bytes], { type: 'audio/wav' }))
}
