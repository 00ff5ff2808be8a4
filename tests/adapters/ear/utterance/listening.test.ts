/** What is heard under a request to listen, and what is not: keys over it, its own moment, passes and second model. */

import { describe, expect, it } from 'vitest'
import type { Denoiser } from '../../../../src/adapters/ear/audio/denoise.ts'
import { inSixteenBits } from '../../../../src/adapters/ear/audio/sixteenBits.ts'
import { Listening } from '../../../../src/adapters/ear/utterance/listening.ts'
import { opinionsOf } from '../../../../src/adapters/ear/utterance/opinions.ts'
import type { Decoded, Passes, Recogniser } from '../../../../src/adapters/ear/utterance/recogniser.ts'
import type { SoundRescorer } from '../../../../src/adapters/ear/utterance/rescoring.ts'
import type { EarEvent, EarGate, ListenRequest } from '../../../../src/ports.ts'

const FRAME_MS = 30
const DECODED: Decoded = { text: 'brake set', words: [], otherSpeech: 0 }

interface Disagreeing {
  /** What the second pass hears in the whole. */
  readonly second: Decoded
  readonly further: readonly [Decoded, Decoded]
  /** Log probability of each text; `lost`: the second model does not answer. */
  readonly logProbs: Readonly<Record<string, number>> | 'lost'
  /** What the second model decodes itself, in the same way. */
  readonly own: Readonly<Record<string, number>>
  /** Log probability of what it decodes freely; `lost`: it does not answer any more. */
  readonly free: number | 'lost'
}

const OTHER: Decoded = { ...DECODED, text: 'brake released' }

/** The model writes long texts less readily. */
const hypotheses = (texts: readonly string[], logProbs: Readonly<Record<string, number>>) =>
  texts.map((text) => ({ text, logProb: logProbs[text] ?? -99, priorLogProb: -8 * text.split(' ').length }))

/** A room with a pilot: loud frames are speech, and the recogniser hears the same words in all of it. */
function room(
  isListenedTo = true,
  ofFollowed?: Decoded,
  { second, further, logProbs, own = {}, free = -20 }: Partial<Disagreeing> = {},
) {
  const events: EarEvent[] = []
  /** Length of the sound of each decoding, ms. */
  const decoded: number[] = []
  const decodedFurther: number[] = []
  const followed: number[] = []
  let constrained = 0
  let freely = 0
  let understood = 0
  const denoiser = {
    push: (pcm: Float32Array) => ({ clean: pcm, partlyDenoised: pcm, speech: (pcm[0] ?? 0) > 0.01 ? 0.95 : 0.02 }),
  } as unknown as Denoiser
  let following = 0
  const [thirdHears, fourthHears] = further ?? [DECODED, DECODED]
  const first: Recogniser = {
    expect() {},
    begin(pcm) {
      following = pcm.length
    },
    push(pcm) {
      following += pcm.length
    },
    end() {
      followed.push(Math.round(following / 16))
      return ofFollowed
    },
    decode(pcm) {
      decoded.push(Math.round(pcm.length / 16))
      return DECODED
    },
    decodeOtherwise(pcm) {
      decodedFurther.push(Math.round(pcm.length / 16))
      return thirdHears
    },
  }
  const passes: Passes = {
    first,
    second: {
      expect() {},
      begin() {},
      push() {},
      end: async () => ofFollowed,
      decode: async () => second ?? DECODED,
      decodeOtherwise: async () => fourthHears,
    },
  }
  const rescorer = (): SoundRescorer | undefined =>
    logProbs && {
      rescore: async (texts) => (logProbs === 'lost' ? undefined : hypotheses(texts, logProbs)),
      async decodeConstrained(alongside) {
        constrained++
        const ownTexts = Object.keys(own).filter((text) => !alongside.includes(text))
        return [...hypotheses(alongside, logProbs === 'lost' ? {} : logProbs), ...hypotheses(ownTexts, own)]
      },
      async decodeFree() {
        freely++
        return free === 'lost' ? undefined : [{ text: 'Stop.', logProb: free, priorLogProb: 0 }]
      },
      phones: async () => undefined,
    }
  const listening = new Listening({
    passes,
    opinions: opinionsOf(passes, rescorer, () => []),
    denoiser,
    taskFor: (hearable) => ({ hearable, grammar: { start: 'heard', rules: [] } }),
    emit: (event) => events.push(event),
    understood: () => {
      understood++
    },
  })
  let now = 0
  const sound = (ms: number, level: number) => {
    for (const end = now + ms; now < end; now += FRAME_MS) listening.frame(new Float32Array(480).fill(level), now)
  }
  const settled = () => new Promise((done) => setTimeout(done, 0))
  sound(3_000, 0.0003)
  const listen = (opensAt: number, more: Partial<ListenRequest> = {}) =>
    listening.listen({ listenId: 7, hearable: { shapes: [], yesNo: false }, after: opensAt, ...more }, opensAt)
  if (isListenedTo) listen(now)
  return {
    now: () => now,
    listen,
    decoded,
    decodedFurther,
    followed,
    understood: () => understood,
    constrained: () => constrained,
    freely: () => freely,
    speak: (ms: number) => sound(ms, 0.2),
    quiet: (ms: number) => sound(ms, 0.0003),
    gate: (gate: EarGate) => listening.gate(gate, now),
    states: () => events.flatMap((event) => (event.type === 'state' ? [event.state] : [])),
    async told() {
      await settled()
      return events.filter(({ type }) => type === 'sound' || type === 'heard')
    },
    async heard() {
      await settled()
      return events.flatMap((event) => (event.type === 'heard' ? [event.heard] : []))
    },
  }
}

describe('the sound of what is said', () => {
  it('is reported before the words, as it came, where it is kept', async () => {
    const { now, listen, speak, quiet, told } = room(false)
    listen(now(), { keepsSound: true })
    quiet(200)
    speak(600)
    quiet(1_500)
    const [sound, heard] = await told()
    if (sound?.type !== 'sound' || heard?.type !== 'heard') throw new Error(JSON.stringify([sound, heard]))
    const { listenId, beganAt } = heard.heard
    expect(sound).toMatchObject({ listenId, beganAt })
    const loud = sound.samples.filter((sample) => sample === Math.round(0.2 * 32_767))
    expect(loud).toHaveLength(600 * 16)
    // With what is kept around it, and not the whole silence behind it.
    expect(sound.samples.length).toBeGreaterThan(700 * 16)
    expect(sound.samples.length).toBeLessThan(1_400 * 16)
  })

  it('is not reported where nobody keeps it', async () => {
    const { speak, quiet, told } = room()
    speak(600)
    quiet(1_500)
    expect((await told()).map(({ type }) => type)).toEqual(['heard'])
  })

  it('is as loud as 16 bits can hold where it is louder', () => {
    expect([...inSixteenBits(Float32Array.of(-2, -1, 0, 0.5, 1, 1.5))]).toEqual([
      ...[-32_767, -32_767, 0, 16_384, 32_767, 32_767],
    ])
  })
})

describe('the talk key', () => {
  it('let go ends the answer at once, with its last syllable', async () => {
    const { gate, speak, quiet, heard, decoded } = room()
    gate('ended')
    quiet(300)
    gate('open')
    quiet(200)
    speak(600)
    gate('ended')
    speak(90)
    quiet(90)
    expect(await heard()).toMatchObject([{ listenId: 7, text: 'brake set' }])
    expect(decoded.at(-1)).toBeGreaterThanOrEqual(690)
  })

  it('not pressed, nothing that is said is decoded', async () => {
    const { gate, speak, quiet, heard, decoded, states } = room()
    gate('ended')
    quiet(300)
    speak(900)
    quiet(1_500)
    expect(await heard()).toEqual([])
    expect(decoded).toEqual([])
    expect(states().at(-1)).toBe('shut')
  })

  it('pressed a little late still has the first word whole', async () => {
    const { gate, speak, quiet, heard, decoded } = room()
    gate('ended')
    quiet(600)
    speak(150)
    gate('open')
    speak(500)
    quiet(1_500)
    const [answer] = await heard()
    expect(answer).not.toHaveProperty('doubt', 'onsetCut')
    expect(decoded.at(-1)).toBeGreaterThanOrEqual(650)
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

describe('a request to listen that comes late', () => {
  it('hears an answer that was begun before it came, with its first word', async () => {
    const { now, listen, speak, quiet, heard } = room(false)
    const opensAt = now() + 90
    quiet(180)
    const beganAt = now()
    speak(600)
    listen(opensAt)
    quiet(1_000)
    const answers = await heard()
    expect(answers).toMatchObject([{ listenId: 7, text: 'brake set', beganAt }])
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
  it('is decoded while it speaks, from before its first sound, and the whole need not be', async () => {
    const { heard, decoded, followed } = await answerFollowed(DECODED)
    expect(heard).toMatchObject([{ text: 'brake set' }])
    // What is kept from before it, in whole frames, and the pause after it.
    expect(followed).toEqual([480 + 900 + 180])
    expect(decoded).toEqual([])
  })

  it('that goes on after a pause is followed again from its beginning', async () => {
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

  it('is studied after each answer that is understood, and no other', async () => {
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

  it('with another one in its place is decoded as a whole', async () => {
    const { heard, decoded, followed } = await answerFollowed()
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(followed).toHaveLength(1)
    expect(decoded).toHaveLength(1)
  })

  it.each([
    ['nothing was found', { ...DECODED, text: '' }],
    ['other speech was found', { ...DECODED, otherSpeech: 1 }],
  ])('is decoded as a whole where %s while it spoke: what is known of it may be far off', async (_, ofFollowed) => {
    const { heard, decoded } = await answerFollowed(ofFollowed)
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(heard[0]).not.toHaveProperty('doubt')
    expect(decoded).toHaveLength(1)
  })
})

describe('two passes that do not agree', () => {
  const other = (text: string): Decoded => ({ ...DECODED, text })
  async function answer(disagreeing: Partial<Disagreeing>) {
    const pilot = room(true, undefined, disagreeing)
    pilot.quiet(1_000)
    pilot.speak(900)
    pilot.quiet(1_500)
    return { ...pilot, heard: await pilot.heard() }
  }

  it('are settled by two further ones that both hear what the first heard', async () => {
    const { heard, decoded, decodedFurther } = await answer({ second: other('brake released') })
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(heard[0]).not.toHaveProperty('doubt')
    expect(decodedFurther).toEqual(decoded)
  })

  it('are not where one of those hears something else, or nothing', async () => {
    for (const one of [other('brake released'), other(''), { ...DECODED, otherSpeech: 1 }]) {
      for (const further of [[one, DECODED] as const, [DECODED, one] as const, [one, one] as const]) {
        const { heard } = await answer({ second: other('brake released'), further })
        expect(heard).toMatchObject([{ text: 'brake set', doubt: 'unsure' }])
      }
    }
  })

  it('are not followed by further ones where they are far apart, or the second found nothing', async () => {
    const nothing = { ...DECODED, text: '' }
    const otherSpeech = { ...DECODED, text: 'brake released', otherSpeech: 1 }
    for (const second of [other('doors closed'), other('brake brake set'), other('brake'), nothing, otherSpeech]) {
      const { heard, decodedFurther } = await answer({ second })
      expect(heard).toMatchObject([{ text: 'brake set', doubt: 'unsure' }])
      expect(decodedFurther).toEqual([])
    }
  })

  it('need no further ones where they agree', async () => {
    const { heard, decodedFurther } = await answer({})
    expect(heard).toMatchObject([{ text: 'brake set' }])
    expect(decodedFurther).toEqual([])
  })
})

describe('what was heard, rescored by the second model', () => {
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
    expect(await answer({ logProbs: { 'brake set': -2 } })).not.toHaveProperty('doubt')
  })

  it('is in doubt where a number fits badly, though both passes heard it; the words of a list need not fit so well', async () => {
    const number = other('four two')
    const logProbs = { 'four two': -15, 'brake set': -15 }
    const heard = await answer({ followed: number, logProbs })
    expect(heard).toMatchObject({ text: 'four two', doubt: 'unsure' })
    expect(await answer({ logProbs })).not.toHaveProperty('doubt')
  })

  it('is other speech where no part of it was said', async () => {
    expect(await answer({ logProbs: { 'brake set': -60 } })).toMatchObject({ doubt: 'otherSpeech' })
  })

  it('is what one pass heard and the second model confirms, whichever pass that is', async () => {
    const heard = await answer({ second: RELEASED, logProbs: { 'brake set': -30, 'brake released': -4 } })
    expect(heard).toMatchObject({ text: 'brake released' })
    expect(heard).not.toHaveProperty('doubt')
  })

  it('is in doubt where two texts are about as likely', async () => {
    const logProbs = { 'brake set': -5, 'brake released': -4 }
    expect(await answer({ second: RELEASED, further: [DECODED, DECODED], logProbs })).toMatchObject({ doubt: 'unsure' })
  })

  it('is decided by the passes alone where the second model does not answer', async () => {
    expect(await answer({ logProbs: 'lost' })).not.toHaveProperty('doubt')
    const unsettled = { second: RELEASED, further: [RELEASED, DECODED], logProbs: 'lost' } as const
    expect(await answer(unsettled)).toMatchObject({ text: 'brake set', doubt: 'unsure' })
    expect(await answer({ ...unsettled, further: [DECODED, DECODED] })).not.toHaveProperty('doubt')
  })

  describe('where it fits badly, beside what the second model hears where anything may be said', () => {
    async function answers(heardBy: Partial<Disagreeing>) {
      const pilot = room(true, undefined, heardBy)
      pilot.quiet(1_000)
      pilot.speak(900)
      pilot.quiet(1_500)
      const [heard] = await pilot.heard()
      return { heard, freely: pilot.freely() }
    }

    it('is in doubt where the second model is sure of that, whatever both passes heard', async () => {
      const { heard } = await answers({ logProbs: { 'brake set': -16 }, free: -1 })
      expect(heard).toMatchObject({ text: 'brake set', doubt: 'unsure' })
    })

    it.each([-4, 'lost'] as const)('stands where it is not: %s', async (free) => {
      const { heard } = await answers({ logProbs: { 'brake set': -16 }, free })
      expect(heard).toMatchObject({ text: 'brake set' })
      expect(heard).not.toHaveProperty('doubt')
    })

    it('is not asked about where it fits, or is in doubt already', async () => {
      for (const logProbs of [{ 'brake set': -12 }, { 'brake set': -60 }]) {
        const { freely } = await answers({ logProbs, free: -1 })
        expect(freely).toBe(0)
      }
    })
  })

  describe('beside what the second model decodes itself', () => {
    const FOUR_TWO = other('four two')
    const both = (heardBy: Partial<Disagreeing>) => answer({ followed: FOUR_TWO, ...heardBy })

    it('is not asked about where it fits well', async () => {
      const pilot = room(true, FOUR_TWO, { logProbs: { 'four two': -3 }, own: { 'five two': -1 } })
      pilot.quiet(1_000)
      pilot.speak(900)
      pilot.quiet(1_500)
      expect(await pilot.heard()).toMatchObject([{ text: 'four two' }])
      expect(pilot.constrained()).toBe(0)
    })

    it('stands where that is the same, or not much likelier', async () => {
      for (const own of [{ 'four two': -9 }, { 'nine nine nine': -11, 'four two': -9 }, { 'four five': -7 }]) {
        const heard = await both({ logProbs: { 'four two': -9 }, own })
        expect(heard).toMatchObject({ text: 'four two' })
        expect(heard).not.toHaveProperty('doubt')
      }
    })

    it('is in doubt where that is much likelier, however well it fits', async () => {
      expect(await both({ logProbs: { 'four two': -9 }, own: { 'nine nine': -2 } })).toMatchObject({
        text: 'four two',
        doubt: 'unsure',
        alternatives: [{ text: 'nine nine' }],
      })
    })

    it('gives way to a number that a pass heard in part', async () => {
      const heard = await both({ logProbs: { 'four two': -12 }, own: { 'four five': -2, 'nine five': -7 } })
      expect(heard).toMatchObject({ text: 'four five', words: [] })
      expect(heard).not.toHaveProperty('doubt')
    })

    it.each([
      ['has a rival', { 'four five': -2, 'four nine': -3 }],
      ['does not fit well', { 'four five': -11 }],
      ['shares nothing with what a pass heard', { 'nine five': -2 }],
    ])('gives no way to a number that %s', async (_, own) => {
      expect(await both({ logProbs: { 'four two': -16 }, own })).toMatchObject({ text: 'four two', doubt: 'unsure' })
    })

    it('never gives way to words: one that no pass heard may be "not"', async () => {
      const own = { 'brake not set': -1 }
      expect(await answer({ logProbs: { 'brake set': -14 }, own })).toMatchObject({
        text: 'brake set',
        doubt: 'unsure',
      })
    })

    it('is other speech where no part of it was said, whatever words that finds', async () => {
      expect(await answer({ logProbs: { 'brake set': -60 }, own: { continue: -9 } })).toMatchObject({
        doubt: 'otherSpeech',
      })
    })
  })
})
