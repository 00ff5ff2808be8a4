// @vitest-environment jsdom

import { afterEach, expect, it, vi } from 'vitest'
import { createMediaKeys } from '../../../src/adapters/input/mediaKeys.ts'

type Handler = (() => void) | null

afterEach(() => vi.unstubAllGlobals())

/** A browser with the Media Session API that does not know one of the actions, as older ones do not. */
function headset() {
  const handlers = new Map<string, Handler>()
  const session = {
    metadata: null,
    setActionHandler(action: string, handler: Handler) {
      if (action === 'togglemicrophone') throw new TypeError('not an action')
      handlers.set(action, handler)
    },
  }
  const playing: string[] = []
  vi.stubGlobal('navigator', { mediaSession: session })
  vi.stubGlobal('MediaMetadata', class {})
  vi.stubGlobal(
    'Audio',
    class {
      loop = false
      async play() {
        playing.push(this.loop ? 'on and on' : 'once')
      }
      pause() {
        playing.push('paused')
      }
    },
  )
  URL.createObjectURL = () => 'blob:silence'
  const pressed: string[] = []
  const keys = createMediaKeys(({ name, isOnce }) => pressed.push(`${name}${isOnce ? ' once' : ''}`))
  return { keys, handlers, playing, pressed }
}

it('the keys of a headset talk and confirm, while a silence is played so that the browser sends them', () => {
  const { keys, handlers, playing, pressed } = headset()
  keys.use(true)
  expect(playing).toEqual(['on and on'])
  for (const action of ['play', 'pause', 'nexttrack']) handlers.get(action)?.()
  expect(pressed).toEqual(['talk once', 'talk once', 'confirm once'])
})

it('are left alone where they are not wanted', () => {
  const { keys, handlers, playing } = headset()
  keys.use(false)
  expect(playing).toEqual([])
  keys.use(true)
  keys.use(false)
  expect(playing.at(-1)).toBe('paused')
  expect([...handlers.values()]).toEqual([null, null, null])
})

it('where the browser has none, nothing happens', () => {
  vi.stubGlobal('navigator', {})
  expect(() => createMediaKeys(() => undefined).use(true)).not.toThrow()
})
