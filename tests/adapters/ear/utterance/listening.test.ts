/** What of the sound is looked at under a listening order, and what is not: keys over it, and its own moment. */

import { describe, expect, it } from 'vitest'
import type { Denoiser } from '../../../../src/adapters/ear/audio/denoise.ts'
import type { Decoded } from '../../../../src/adapters/ear/recogniser/decoder.ts'
import { Listening, type Looks } from '../../../../src/adapters/ear/utterance/listening.ts'
import type { EarEvent, EarGate } from '../../../../src/ports.ts'

const FRAME_MS = 30
const DECODED: Decoded = { text: 'brake set', words: [], score: 0, frames: 50, otherSpeech: 0 }

const both = <T>(first: T) => ({ first, second: Promise.resolve(first) })

interface Disagreeing {
  /** The second look at the whole. */
  readonly second: Decoded
  readonly further: readonly [Decoded, Decoded]
  /** What each saying weighs; `lost`: the weigher does not answer. */
  readonly weights: Readonly<Record<string, number>> | 'lost'
  /** What the weigher hears itself, the same way. */
  readonly own: Readonly<Record<string, number>>
  /** What it hears where anything may be said weighs so much; `lost`: it does not answer any more. */
  readonly anything: number | 'lost'
}

const OTHER: Decoded = { ...DECODED, text: 'brake released' }

/** Habits as they are, in a model that writes long texts less readily. */
const sayings = (texts: readonly string[], weights: Readonly<Record<string, number>>) =>
  texts.map((text) => ({ text, weight: weights[text] ?? -99, habit: -8 * text.split(' ').length }))

/** A room with a pilot: loud frames are speech, and the recogniser hears the same words in all of it. */
function room(
  isListenedTo = true,
  ofFollowed?: Decoded,
  { second, further, weights, own = {}, anything = -20 }: Partial<Disagreeing> = {},
) {
  const events: EarEvent[] = []
  const looked: number[] = []
  const lookedFurther: number[] = []
  const followed: number[] = []
  let heardItself = 0
  let heardAnything = 0
  let understood = 0
  const denoiser = {
    push: (pcm: Float32Array) => ({ clean: pcm, eased: pcm, speech: (pcm[0] ?? 0) > 0.01 ? 0.95 : 0.02 }),
  } as unknown as Denoiser
  let following = 0
  const looks: Looks = {
    expect() {},
    begin(pcm) {
      following = pcm.length
    },
    push(pcm) {
      following += pcm.length
    },
    end() {
      followed.push(Math.round(following / 16))
      return both(ofFollowed)
    },
    at(pcm) {
      looked.push(Math.round(pcm.length / 16))
      return { first: DECODED, second: Promise.resolve(second ?? DECODED) }
    },
    furtherAt(pcm) {
      lookedFurther.push(Math.round(pcm.length / 16))
      const [third, fourth] = further ?? [DECODED, DECODED]
      return { first: third, second: Promise.resolve(fourth) }
    },
    weighing: () =>
      weights && {
        weigh: async (texts) => (weights === 'lost' ? undefined : sayings(texts, weights)),
        async hear(beside) {
          heardItself++
          const heard = sayings(beside, weights === 'lost' ? {} : weights)
          return [
            ...heard,
            ...sayings(
              Object.keys(own).filter((text) => !beside.includes(text)),
              own,
            ),
          ]
        },
        async hearAnything() {
          heardAnything++
          return anything === 'lost' ? undefined : [{ text: 'Stop.', weight: anything, habit: 0 }]
        },
      },
    understood() {
      understood++
    },
  }
  const listening = new Listening({ looks, denoiser, emit: (event) => events.push(event) })
  let now = 0
  const sound = (ms: number, level: number) => {
    for (const end = now + ms; now < end; now += FRAME_MS) listening.frame(new Float32Array(480).fill(level), now)
  }
  const settled = () => new Promise((done) => setTimeout(done, 0))
  sound(3_000, 0.0003)
  const listen = (opensAt: number) =>
    listening.listen({ order: 7, hearable: { shapes: [], yesNo: false }, after: opensAt }, opensAt)
  if (isListenedTo) listen(now)
  return {
    now: () => now,
    listen,
    looked,
    lookedFurther,
    followed,
    understood: () => understood,
    heardItself: () => heardItself,
    heardAnything: () => heardAnything,
    speak: (ms: number) => sound(ms, 0.2),
    quiet: (ms: number) => sound(ms, 0.0003),
    gate: (gate: EarGate) => listening.gate(gate, now),
    states: () => events.flatMap((event) => (event.type === 'state' ? [event.state] : [])),
    async heard() {
      await settled()
      return events.flatMap((event) => (event.type === 'heard' ? [event.heard] : []))
    },
  }
}

describe('the talk key', () => {
  it('let go ends the answer at once, with its last syllable', async () => {
    const { gate, speak, quiet, heard, looked } = room()
    gate('ended')
    quiet(300)
    gate('open')
    quiet(200)
    speak(600)
    gate('ended')
    speak(90)
    quiet(90)
    expect(await heard()).toMatchObject([{ order: 7, text: 'brake set' }])
    expect(looked.at(-1)).toBeGreaterThanOrEqual(690)
  })

  it('not pressed, nothing that is said is looked at', async () => {
    const { gate, speak, quiet, heard, looked, states } = room()
    gate('ended')
    quiet(300)
    speak(900)
    quiet(1_500)
    expect(await heard()).toEqual([])
    expect(looked).toEqual([])
    expect(states().at(-1)).toBe('shut')
  })

  it('pressed a little late still has the first word whole', async () => {
    const { gate, speak, quiet, heard, looked } = room()
    gate('ended')
    quiet(600)
    speak(150)
    gate('open')
    speak(500)
    quiet(1_500)
    const [answer] = await heard()
    expect(answer).not.toHaveProperty('doubt', 'onsetCut')
    expect(looked.at(-1)).toBeGreaterThanOrEqual(650)
  })
})

describe('the radio key', () => {
  it('drops what was being said, and what is said while it is held', async () => {
    const { gate, speak, quiet, heard, states } = room()
    speak(400)
    gate('shut')
    speak(900)
    quiet(1_200)
    expect(await heard()).toEqual([])
    expect(states().at(-1)).toBe('shut')
    gate('open')
    quiet(300)
    expect(states().at(-1)).toBe('open')
    speak(600)
    quiet(1_500)
    expect(await heard()).toHaveLength(1)
  })

  it('let go in the middle of a word leaves that word unjudged', async () => {
    const { gate, speak, quiet, heard } = room()
    gate('shut')
    speak(600)
    gate('open')
    speak(600)
    quiet(1_500)
    expect(await heard()).toMatchObject([{ doubt: 'onsetCut' }])
  })
})

describe('an order that comes late', () => {
  it('hears an answer that was begun before it came, with its first word', async () => {
    const { now, listen, speak, quiet, heard } = room(false)
    const opensAt = now() + 90
    quiet(180)
    const beganAt = now()
    speak(600)
    listen(opensAt)
    quiet(1_000)
    const answers = await heard()
    expect(answers).toMatchObject([{ order: 7, text: 'brake set', beganAt }])
    expect(answers[0]).not.toHaveProperty('doubt')
  })

  it('does not take for an answer what was said before it is to open', async () => {
    const { now, listen, speak, quiet, heard } = room(false)
    speak(600)
    quiet(60)
    listen(now())
    quiet(1_000)
    expect(await heard()).toEqual([])
  })

  it('stands by no answer that was under way when it is to open', async () => {
    const { now, listen, speak, quiet, heard } = room(false)
    speak(300)
    const opensAt = now()
    speak(600)
    listen(opensAt)
    quiet(1_000)
    expect(await heard()).toMatchObject([{ doubt: 'onsetCut' }])
  })

  it('hears nothing of what was said while the radio key was held', async () => {
    const { now, listen, speak, quiet, gate, heard } = room(false)
    const opensAt = now()
    gate('shut')
    quiet(90)
    speak(600)
    quiet(90)
    gate('open')
    listen(opensAt)
    quiet(1_000)
    expect(await heard()).toEqual([])
  })
})

/** One answer into the open ear, where this is made of what was followed. */
async function answerFollowed(ofFollowed?: Decoded) {
  const pilot = room(true, ofFollowed)
  pilot.quiet(1_000)
  pilot.speak(900)
  pilot.quiet(1_500)
  return { ...pilot, heard: await pilot.heard() }
}

describe('a voice that is known', () => {
  it('is followed while it speaks, from before its first sound, and no look at the whole is needed', async () => {
    const { heard, looked, followed } = await answerFollowed(DECODED)
    expect(heard).toMatchObject([{ text: 'brake set' }])
    // What is kept from before it, in whole frames, and the pause behind it.
    expect(followed).toEqual([480 + 900 + 180])
    expect(looked).toEqual([])
  })

  it('that goes on behind a pause is followed again from its beginning', async () => {
    const { speak, quiet, followed, heard } = room(true, DECODED)
    quiet(1_000)
    speak(600)
    quiet(210)
    speak(600)
    quiet(600)
    expect(await heard()).toHaveLength(1)
    expect(followed).toHaveLength(2)
    expect((followed[1] ?? 0) - (followed[0] ?? 0)).toBe(210 + 600)
  })

  it('tells more of itself with each answer that is understood, and with no other', async () => {
    const { understood, followed } = await answerFollowed(DECODED)
    expect(followed).toHaveLength(1)
    expect(understood()).toBe(1)
    const doubtful = room(true, undefined, { second: OTHER, further: [OTHER, OTHER] })
    doubtful.quiet(1_000)
    doubtful.speak(900)
    doubtful.quiet(1_500)
    expect(await doubtful.heard()).toMatchObject([{ doubt: 'unsure' }])
    expect(doubtful.understood()).toBe(0)
  })

  it('with another one in its place is looked at as a whole', async () => {
    const { heard, looked, followed } = await answerFollowed()
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(followed).toHaveLength(1)
    expect(looked).toHaveLength(1)
  })

  it.each([
    ['nothing was found', { ...DECODED, text: '' }],
    ['other speech was found', { ...DECODED, otherSpeech: 1 }],
  ])('is looked at as a whole where %s in what was followed: what is known may be badly off', async (_, ofFollowed) => {
    const { heard, looked } = await answerFollowed(ofFollowed)
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(heard[0]).not.toHaveProperty('doubt')
    expect(looked).toHaveLength(1)
  })
})

describe('two looks that do not agree', () => {
  const other = (text: string): Decoded => ({ ...DECODED, text })
  async function answer(disagreeing: Partial<Disagreeing>) {
    const pilot = room(true, undefined, disagreeing)
    pilot.quiet(1_000)
    pilot.speak(900)
    pilot.quiet(1_500)
    return { ...pilot, heard: await pilot.heard() }
  }

  it('are settled by two further ones that both hear what the first heard', async () => {
    const { heard, looked, lookedFurther } = await answer({ second: other('brake released') })
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(heard[0]).not.toHaveProperty('doubt')
    expect(lookedFurther).toEqual(looked)
  })

  it('are not where one of those hears something else, or nothing', async () => {
    for (const one of [other('brake released'), other(''), { ...DECODED, otherSpeech: 1 }]) {
      for (const further of [[one, DECODED] as const, [DECODED, one] as const, [one, one] as const]) {
        const { heard } = await answer({ second: other('brake released'), further })
        expect(heard).toMatchObject([{ text: 'brake set', doubt: 'unsure' }])
      }
    }
  })

  it('are not looked at further where they are not near each other, or the second found nothing', async () => {
    const nothing = { ...DECODED, text: '' }
    const otherSpeech = { ...DECODED, text: 'brake released', otherSpeech: 1 }
    for (const second of [other('doors closed'), other('brake brake set'), other('brake'), nothing, otherSpeech]) {
      const { heard, lookedFurther } = await answer({ second })
      expect(heard).toMatchObject([{ text: 'brake set', doubt: 'unsure' }])
      expect(lookedFurther).toEqual([])
    }
  })

  it('need no further ones where they agree', async () => {
    const { heard, lookedFurther } = await answer({})
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(lookedFurther).toEqual([])
  })
})

describe('what was heard, in weight', () => {
  const other = (text: string): Decoded => ({ ...DECODED, text })
  const RELEASED = other('brake released')
  async function answer({ followed, ...heardBy }: Partial<Disagreeing> & { readonly followed?: Decoded }) {
    const pilot = room(true, followed, heardBy)
    pilot.quiet(1_000)
    pilot.speak(900)
    pilot.quiet(1_500)
    const [heard, ...more] = await pilot.heard()
    expect(more).toEqual([])
    return heard
  }

  it('is sure where it fits the sound', async () => {
    expect(await answer({ weights: { 'brake set': -2 } })).not.toHaveProperty('doubt')
  })

  it('is in doubt where a number does not, though both looks heard it; the words of a list need not fit so well', async () => {
    const number = other('four two')
    const weights = { 'four two': -15, 'brake set': -15 }
    const heard = await answer({ followed: number, weights })
    expect(heard).toMatchObject({ text: 'four two', doubt: 'unsure' })
    expect(await answer({ weights })).not.toHaveProperty('doubt')
  })

  it('is other speech where no part of it was said', async () => {
    expect(await answer({ weights: { 'brake set': -60 } })).toMatchObject({ doubt: 'otherSpeech' })
  })

  it('is what one look heard and the weigher bears out, whichever look that is', async () => {
    const heard = await answer({ second: RELEASED, weights: { 'brake set': -30, 'brake released': -4 } })
    expect(heard).toMatchObject({ text: 'brake released' })
    expect(heard).not.toHaveProperty('doubt')
  })

  it('is in doubt where two sayings weigh nearly the same', async () => {
    const weights = { 'brake set': -5, 'brake released': -4 }
    expect(await answer({ second: RELEASED, further: [DECODED, DECODED], weights })).toMatchObject({ doubt: 'unsure' })
  })

  it('is judged by the looks alone where the weigher does not answer', async () => {
    expect(await answer({ weights: 'lost' })).not.toHaveProperty('doubt')
    const unsettled = { second: RELEASED, further: [RELEASED, DECODED], weights: 'lost' } as const
    expect(await answer(unsettled)).toMatchObject({ text: 'brake set', doubt: 'unsure' })
    expect(await answer({ ...unsettled, further: [DECODED, DECODED] })).not.toHaveProperty('doubt')
  })

  describe('where it does not fit, beside what the weigher hears where anything may be said', () => {
    async function answers(heardBy: Partial<Disagreeing>) {
      const pilot = room(true, undefined, heardBy)
      pilot.quiet(1_000)
      pilot.speak(900)
      pilot.quiet(1_500)
      const [heard] = await pilot.heard()
      return { heard, heardAnything: pilot.heardAnything() }
    }

    it('is in doubt where the weigher is sure of that, whatever both looks heard', async () => {
      const { heard } = await answers({ weights: { 'brake set': -16 }, anything: -1 })
      expect(heard).toMatchObject({ text: 'brake set', doubt: 'unsure' })
    })

    it.each([-4, 'lost'] as const)('stands where it is not: %s', async (anything) => {
      const { heard } = await answers({ weights: { 'brake set': -16 }, anything })
      expect(heard).toMatchObject({ text: 'brake set' })
      expect(heard).not.toHaveProperty('doubt')
    })

    it('is not asked about where it fits, or is in doubt already', async () => {
      for (const weights of [{ 'brake set': -12 }, { 'brake set': -60 }]) {
        const { heardAnything } = await answers({ weights, anything: -1 })
        expect(heardAnything).toBe(0)
      }
    })
  })

  describe('beside what the weigher hears itself', () => {
    const FOUR_TWO = other('four two')
    const looked = (heardBy: Partial<Disagreeing>) => answer({ followed: FOUR_TWO, ...heardBy })

    it('is not asked about where it fits well', async () => {
      const pilot = room(true, FOUR_TWO, { weights: { 'four two': -3 }, own: { 'five two': -1 } })
      pilot.quiet(1_000)
      pilot.speak(900)
      pilot.quiet(1_500)
      expect(await pilot.heard()).toMatchObject([{ text: 'four two' }])
      expect(pilot.heardItself()).toBe(0)
    })

    it('stands where that is the same, or not much likelier', async () => {
      for (const own of [{ 'four two': -9 }, { 'nine nine nine': -11, 'four two': -9 }, { 'four five': -7 }]) {
        const heard = await looked({ weights: { 'four two': -9 }, own })
        expect(heard).toMatchObject({ text: 'four two' })
        expect(heard).not.toHaveProperty('doubt')
      }
    })

    it('is in doubt where that is much likelier, however well it fits', async () => {
      expect(await looked({ weights: { 'four two': -9 }, own: { 'nine nine': -2 } })).toMatchObject({
        text: 'four two',
        doubt: 'unsure',
        alternatives: [{ text: 'nine nine' }],
      })
    })

    it('gives way to a number that a look heard in part', async () => {
      const heard = await looked({ weights: { 'four two': -12 }, own: { 'four five': -2, 'nine five': -7 } })
      expect(heard).toMatchObject({ text: 'four five', words: [] })
      expect(heard).not.toHaveProperty('doubt')
    })

    it.each([
      ['has a rival', { 'four five': -2, 'four nine': -3 }],
      ['does not fit well', { 'four five': -11 }],
      ['has nothing of what a look heard', { 'nine five': -2 }],
    ])('gives no way to a number that %s', async (_, own) => {
      expect(await looked({ weights: { 'four two': -16 }, own })).toMatchObject({ text: 'four two', doubt: 'unsure' })
    })

    it('never gives way to words: one that no look heard may be "not"', async () => {
      const own = { 'brake not set': -1 }
      expect(await answer({ weights: { 'brake set': -14 }, own })).toMatchObject({ text: 'brake set', doubt: 'unsure' })
    })

    it('is other speech where no part of it was said, whatever words that finds', async () => {
      expect(await answer({ weights: { 'brake set': -60 }, own: { continue: -9 } })).toMatchObject({
        doubt: 'otherSpeech',
      })
    })
  })
})
