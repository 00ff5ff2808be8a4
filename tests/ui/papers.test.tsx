import { fireEvent, screen, waitFor } from '@testing-library/preact'
import { describe, expect, it } from 'vitest'
import { atTrim } from './stage.tsx'

/** On the run screen, with the pad open. */
async function writing() {
  const flight = await atTrim()
  await flight.user.click(screen.getByRole('button', { name: 'Scratch pad' }))
  const pad = screen.getByRole('img', { name: /^Written by hand/ })
  // A layout that tests have not: one unit of the pad is one of the screen.
  pad.getBoundingClientRect = () => ({ left: 0, top: 0, width: 1000, height: 450 }) as DOMRect
  ;(pad as unknown as { setPointerCapture: () => void }).setPointerCapture = () => undefined
  return { ...flight, pad }
}

const kept = ({ log }: Awaited<ReturnType<typeof writing>>) => log.events.findLast(({ type }) => type === 'padWritten')

describe('the scratch pad', () => {
  it('loses no stroke of a quick hand, and no point of a stroke', async () => {
    const flight = await writing()
    for (let at = 1; at <= 20; at++) {
      fireEvent.pointerDown(flight.pad, { clientX: at, clientY: 1, pointerId: 1 })
      fireEvent.pointerMove(flight.pad, { clientX: at, clientY: 2 })
      fireEvent.pointerMove(flight.pad, { clientX: at, clientY: 3 })
      fireEvent.pointerUp(flight.pad)
    }
    const strokes = Array.from({ length: 20 }, (_, index) => [index + 1, 1, index + 1, 2, index + 1, 3])
    await waitFor(() => expect(kept(flight)).toMatchObject({ strokes }))
  })

  it('takes the last stroke back, and keeps what is typed beside them', async () => {
    const flight = await writing()
    for (const x of [5, 6]) {
      fireEvent.pointerDown(flight.pad, { clientX: x, clientY: 1, pointerId: 1 })
      fireEvent.pointerMove(flight.pad, { clientX: x, clientY: 2 })
      fireEvent.pointerUp(flight.pad)
    }
    await flight.user.click(await screen.findByRole('button', { name: 'Take the last stroke back' }))
    await flight.user.type(screen.getByRole('textbox', { name: 'Notes' }), 'squawk 4271')
    await flight.user.tab()
    await waitFor(() => expect(kept(flight)).toMatchObject({ text: 'squawk 4271', strokes: [[5, 1, 5, 2]] }))
  })
})

describe('a paper', () => {
  it('opens and closes by its button, and its reading is logged once for each time', async () => {
    const { user, log } = await atTrim()
    const button = screen.getByRole('button', { name: /trim card/i })
    for (const shown of [true, false, true]) {
      await user.click(button)
      await waitFor(() => expect(screen.queryByRole('article', { name: /trim card/i }) !== null).toBe(shown))
    }
    const looks = log.events.filter(({ type }) => type === 'paperHandled')
    expect(looks).toMatchObject([
      { edition: 'trimCard', how: 'lookedAt' },
      { edition: 'trimCard', how: 'lookedAt' },
    ])
  })
})
