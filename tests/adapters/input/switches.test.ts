// @vitest-environment jsdom

import { beforeEach, describe, expect, it } from 'vitest'
import { createSwitches } from '../../../src/adapters/input/switches.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import type { Binding, SwitchEvent, SwitchName } from '../../../src/ports.ts'

const PEDAL = 'Foot Pedal (Vendor: 1234 Product: 5678)'
const key = (code: string, label = code): Binding => ({ type: 'key', code, label })
const button = (index: number): Binding => ({ type: 'button', pad: PEDAL, button: index })

function hands(bindings: Partial<Record<SwitchName, Binding>> = {}) {
  const frame = document.body.appendChild(document.createElement('iframe'))
  const window = frame.contentWindow as Window & typeof globalThis
  window.document.body.innerHTML = '<input id="field"><button id="press">press</button>'
  const clock = createVirtualClock()
  const buttons = [0, 1, 2].map(() => ({ pressed: false, touched: false, value: 0 }))
  const heard: string[] = []
  const switches = createSwitches({
    clock,
    bindings: () => ({ talk: null, radio: null, confirm: null, freeze: null, ...bindings }),
    window,
    pads: () => [null, { id: PEDAL, buttons }],
  })
  switches.subscribe(({ name, isDown }: SwitchEvent) => heard.push(`${name} ${isDown ? 'down' : 'up'}`))
  const event = (type: string, code: string, more: KeyboardEventInit = {}) =>
    new window.KeyboardEvent(type, { code, key: code, bubbles: true, cancelable: true, ...more })
  return {
    switches,
    heard,
    window,
    /** True where the key does nothing else. */
    send: (type: 'keydown' | 'keyup', code: string, more: KeyboardEventInit & { on?: string } = {}) =>
      !(more.on ? window.document.getElementById(more.on) : window.document.body)?.dispatchEvent(
        event(type, code, more),
      ),
    push(index: number, isDown: boolean) {
      buttons[index] = { pressed: isDown, touched: isDown, value: isDown ? 1 : 0 }
      clock.advance(30)
    },
    press(index: number, value: number) {
      buttons[index] = { pressed: false, touched: true, value }
      clock.advance(30)
    },
  }
}

describe('a key of the pilot’s own', () => {
  it('is down until it is let go, whatever the keyboard repeats meanwhile, and does nothing else', () => {
    const { send, heard } = hands({ talk: key('F9') })
    expect(send('keydown', 'F9')).toBe(true)
    send('keydown', 'F9', { repeat: true })
    send('keyup', 'F9')
    expect(heard).toEqual(['talk down', 'talk up'])
  })

  it('leaves every other key alone', () => {
    const { send, heard } = hands({ talk: key('F9') })
    expect(send('keydown', 'F8')).toBe(false)
    expect(heard).toEqual([])
  })

  it.each([
    ['a letter in a field', 'KeyT', 't', 'field'],
    ['the space bar on a button', 'Space', ' ', 'press'],
  ])('%s is the page’s', (_what, code, typed, on) => {
    const { send, heard } = hands({ talk: key(code) })
    expect(send('keydown', code, { key: typed, on })).toBe(false)
    expect(heard).toEqual([])
  })

  it('is a letter in an editor that lies in a shadow root', () => {
    const { window, heard } = hands({ confirm: key('Space') })
    const host = window.document.body.appendChild(window.document.createElement('div'))
    const editor = window.document.createElement('div')
    editor.setAttribute('contenteditable', 'true')
    host.attachShadow({ mode: 'open' }).append(editor)
    const more = { code: 'Space', key: ' ', bubbles: true, composed: true, cancelable: true }
    expect(editor.dispatchEvent(new window.KeyboardEvent('keydown', more))).toBe(true)
    expect(heard).toEqual([])
  })

  it('that no letter is typed with works in a field too', () => {
    const { send, heard } = hands({ talk: key('F9') })
    send('keydown', 'F9', { on: 'field' })
    expect(heard).toEqual(['talk down'])
  })

  it('held while the window is left is let go: nobody tells when', () => {
    const { send, heard, window } = hands({ radio: key('KeyR') })
    send('keydown', 'KeyR')
    window.dispatchEvent(new window.Event('blur'))
    expect(heard).toEqual(['radio down', 'radio up'])
  })
})

describe('a pedal', () => {
  it('is heard down and up', () => {
    const { push, heard } = hands({ talk: button(1) })
    push(1, true)
    push(1, true)
    push(1, false)
    expect(heard).toEqual(['talk down', 'talk up'])
  })

  it('that tells only how far it is down counts from the half', () => {
    const { press, heard } = hands({ talk: button(1) })
    press(1, 0.4)
    expect(heard).toEqual([])
    press(1, 0.8)
    press(1, 0.1)
    expect(heard).toEqual(['talk down', 'talk up'])
  })

  it('does not do what another one is for', () => {
    const { push, heard } = hands({ talk: button(1), radio: button(2) })
    push(0, true)
    push(2, true)
    expect(heard).toEqual(['radio down'])
  })
})

describe('learning', () => {
  let flight: ReturnType<typeof hands>
  beforeEach(() => {
    flight = hands({ talk: key('F9'), confirm: button(0) })
  })

  it('takes the next key, and that key does nothing else', async () => {
    const learned = flight.switches.learn()
    expect(flight.send('keydown', 'Space', { key: ' ' })).toBe(true)
    expect(await learned).toEqual(key('Space', 'Space'))
    expect(flight.heard).toEqual([])
  })

  it('takes the next button pressed, not one that is down already', async () => {
    flight.push(2, true)
    const learned = flight.switches.learn()
    flight.push(2, true)
    flight.push(1, true)
    expect(await learned).toEqual(button(1))
  })

  it('is given up with Escape', async () => {
    const learned = flight.switches.learn()
    flight.send('keydown', 'Escape')
    expect(await learned).toBeUndefined()
  })

  it('of a second one gives up the first', async () => {
    const [first, second] = [flight.switches.learn(), flight.switches.learn()]
    flight.send('keydown', 'F2')
    expect(await first).toBeUndefined()
    expect(await second).toEqual(key('F2'))
  })
})
