/** The recordings of the embedded voices against what the app can say: `npm run voice` renders them again. */

import { readFileSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { clipsFor, plainWords } from '../../../src/adapters/voice/clips.ts'
import type { Recording } from '../../../src/adapters/voice/embeddedVoice.ts'
import { packsIn, readBackPacks, textsToRecord } from '../../../src/build/voiceTexts.ts'
import { sourceWords } from '../../../src/kernel/figures/sources.ts'
import type { Figure, KindSpec, Value } from '../../../src/kernel/kinds/kind.ts'
import { RADIOS } from '../../../src/kernel/kinds/radio.ts'
import { sayOnRadio, sayValue } from '../../../src/kernel/kinds/table.ts'
import { spokenUnit, unitAloud } from '../../../src/kernel/kinds/unitWords.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import type { Wording } from '../../../src/kernel/pack/exchange.ts'
import { listsOf } from '../../../src/kernel/pack/place.ts'
import { ROLES, type Role } from '../../../src/kernel/pack/roles.ts'
import { fillTemplate } from '../../../src/kernel/pack/template.ts'
import { PASS_REASONS } from '../../../src/kernel/response/commands.ts'
import { sayResponse } from '../../../src/kernel/response/sentence.ts'
import { listName, say } from '../../../src/kernel/run/core/phrases.ts'
import { groundStopping } from '../../../src/kernel/run/talk/radio.ts'

const here = (path: string) => fileURLToPath(new URL(`../../../${path}`, import.meta.url))
const packs = await packsIn(here('checklists'))
const recordingOf = (role: Role): Recording => JSON.parse(readFileSync(here(`audio/voice/${role}.json`), 'utf8'))
const unsaidBy = (role: Role, texts: readonly string[]) => {
  const { clips } = recordingOf(role)
  return texts.filter((text) => text !== '' && !clipsFor(text, clips))
}
const unsaid = (texts: readonly string[]) => unsaidBy('otherseat', texts)

describe.each(ROLES)('the recording of %s', (role) => {
  test('has a clip for every phrase and every word: if not, render again with npm run voice', () => {
    const { clips } = recordingOf(role)
    const texts = textsToRecord([...packs, ...readBackPacks()], role)
    expect(texts.length).toBeGreaterThan(100)
    expect(texts.filter((text) => !Object.hasOwn(clips, text))).toEqual([])
  })

  test('is small enough to be kept for use without a network', () => {
    expect(statSync(here(`audio/voice/${role}.mp3`)).size).toBeLessThan(role === 'otherseat' ? 3_500_000 : 1_000_000)
  })

  test('has clips that follow one another, and none is empty', () => {
    let end = 0
    for (const [beginMs, lengthMs] of Object.values(recordingOf(role).clips)) {
      expect(beginMs).toBeGreaterThan(end)
      expect(lengthMs).toBeGreaterThan(60)
      end = beginMs + lengthMs
    }
  })
})

test('a station’s recording holds no more than a station says', () => {
  for (const role of ROLES.filter((each) => each !== 'otherseat')) {
    const { clips } = recordingOf(role)
    expect(clipsFor('takeoff trim', clips), role).toBeUndefined()
    expect(clipsFor('Say again.', clips), role).toBeDefined()
  }
})

/** Values from the whole width of a kind. */
function someValues(spec: KindSpec): readonly Value[] {
  switch (spec.kind) {
    case 'decimal':
    case 'trim':
      return [-12.5, -0.3, 0, 4.6, 5.2, 10, 26.4, 97.8]
    case 'mach':
      return [0.64, 0.78, 0.8, 1.2]
    case 'altimeter':
      return spec.unit === 'hPa' ? [978, 1000, 1013, 1024] : [28.78, 29.92, 30.01]
    case 'frequency':
      return [118.1, 121.905, 134.575]
    case 'digits':
      return ['0123456789'.slice(0, spec.length), '9876543210'.slice(0, spec.length)]
    case 'time':
      return ['0001', '1435', '2359']
    case 'runway':
      return ['09', '27L', '36R', '18C']
    case 'identifier':
      return [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ', 'A3']
    case 'callsign':
      return [...(spec.telephony ?? []).map((name) => `${name.toUpperCase()} 1480B`), 'QX-MRA']
    case 'wind':
      return ['CALM', 'VRB/3', '240/12G25', '005/9']
    case 'route':
      return ['A3 B C10']
    case 'choice':
      return Object.keys(spec.options)
    case 'heading':
      return [1, 89, 360]
    case 'flightLevel':
      return [70, 100, 350]
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'altitude':
      return [0, 7, 13, 40, 89, 128, 500, 2_000, 8_400, 12_340, 31_640]
  }
}

/** A wording in both phraseologies, with each value that its figures may have. */
function waysOf({ figures }: Pack, wording: Wording | undefined): string[] {
  return RADIOS.flatMap((radio) => {
    const template = wording?.[radio]
    if (!template) return []
    const spec = (name: string) => figures.declarations[name]?.spec ?? expect.unreachable(name)
    const most = Math.max(1, ...template.figures.map((name) => someValues(spec(name)).length))
    return Array.from({ length: most }, (_, at) =>
      fillTemplate(template, (name) => {
        const values = someValues(spec(name))
        return sayOnRadio({ ...spec(name), value: values[at % values.length] } as Figure, radio)
      }),
    )
  })
}

describe.each(packs)('with the pack $id', (pack) => {
  const figures = Object.values(pack.figures.declarations)
  const lists = listsOf(pack)
  const items = lists.flatMap((list) => list.entries).filter((entry) => entry.type === 'item')

  test('every figure can be said, whatever its value', () => {
    const values = figures.flatMap(({ spec }) => someValues(spec).map((value): Figure => ({ ...spec, value })))
    const texts = values.flatMap((figure) => [sayValue(figure, 'plain'), sayValue(figure, 'standard')])
    expect(unsaid(texts)).toEqual([])
  })

  test('every answer can be said by the other seat', () => {
    const texts = items.flatMap(({ responses }) => responses.map(({ response }) => sayResponse(response, {}, 'plain')))
    expect(unsaid(texts)).toEqual([])
  })

  test('every transmission can be said by its station, whatever its values, in the words of both', () => {
    const exchanges = pack.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'exchange'))
    for (const exchange of exchanges) {
      if (exchange.type !== 'exchange') continue
      const wordings = exchange.turns.flatMap(({ opens, closes, elements }) =>
        [opens, closes, ...elements.map(({ says }) => says)].flatMap((wording) => waysOf(pack, wording)),
      )
      const stopping = exchange.station.role === 'groundCrew' ? groundStopping(exchange).map(({ text }) => text) : []
      expect(unsaidBy(exchange.station.role, [...wordings, ...stopping])).toEqual([])
    }
  })

  test('what a controller has read back can be said by the other seat, and put right', () => {
    const elements = pack.phases.flatMap(({ activities }) =>
      activities.flatMap((one) =>
        one.type === 'exchange' && one.station.role === 'controller' ? one.turns.flatMap((turn) => turn.elements) : [],
      ),
    )
    const texts = elements.filter(({ readBack }) => readBack).flatMap(({ says }) => waysOf(pack, says))
    expect(texts.length).toBeGreaterThan(10)
    expect(unsaid(texts.flatMap((text) => [text, `Correction, ${text}.`]))).toEqual([])
  })

  test('everything that the runner composes of its names can be said', () => {
    const challenges = items.map((item) => item.challenge)
    const labels = figures.map((figure) => figure.label)
    const asked = new Set(items.flatMap(({ responses }) => responses.flatMap(({ response }) => response.figures)))
    const names = lists.map((list) => list.name)
    const activities = pack.phases.flatMap((phase) => phase.activities)
    const watches = activities.filter((activity) => activity.type === 'watch')
    const flows = activities.filter((activity) => activity.type === 'flow')
    const exchanges = activities.filter((activity) => activity.type === 'exchange')
    const briefings = activities.filter((activity) => activity.type === 'briefing')
    const turns = exchanges.flatMap((exchange) => exchange.turns)
    const topics = briefings.flatMap((briefing) => briefing.topics.map(({ label }) => label))
    const calls = watches.flatMap((watch) => watch.calls)
    const abnormal = watches.flatMap((watch) => watch.abnormal)
    const interlocks = [...items, ...watches, ...turns, ...flows.flatMap(({ steps }) => steps)].flatMap(
      (held) => held.interlocks ?? [],
    )
    const stated = figures.flatMap(({ label, stated }) => (stated?.sources ?? []).map((source) => ({ label, source })))
    /** Whatever Otherseat can say of its own accord; a phrase that is missing here does not compile. */
    const texts: Record<keyof typeof say, readonly string[]> = {
      challenge: [...challenges, ...calls.flatMap(({ value }) => value?.label ?? [])].map(say.challenge),
      flow: pack.phases.flatMap((phase) => phase.activities.map(({ name }) => say.flow(name))),
      callFor: names.map(say.callFor),
      list: names.map(say.list),
      completed: names.flatMap((name) => [say.completed(name, true), say.completed(name, false)]),
      notComplete: names.map((name) => say.notComplete(name, challenges)),
      alreadyComplete: names.map(say.alreadyComplete),
      leftOpen: [say.leftOpen()],
      fromMemory: [say.fromMemory()],
      againOver: [
        ...[0, 1].map((misses) => say.againOver(misses, undefined)),
        ...[0, 1, 2].map((misses) => say.againOver(misses, 1)),
        say.againOver(1, 2),
      ],
      stopped: [say.stopped()],
      brakesSet: [say.brakesSet()],
      figuresIn: (['preliminary', 'final', 'amended'] as const).map(say.figuresIn),
      figuresChanged: [say.figuresChanged()],
      openAgain: [say.openAgain(challenges), ...challenges.map((challenge) => say.openAgain([challenge]))],
      papersIn: [
        ...pack.papers.map(({ title }) => say.papersIn([{ title, number: 2 }])),
        say.papersIn(pack.papers.map(({ title }) => ({ title, number: 2 }))),
      ],
      changed: [say.changed(labels), say.changed([])],
      nothingChanges: [say.nothingChanges()],
      revoked: names.map(say.revoked),
      heard: [say.heard('five two up'), say.heard('five', 'low'), say.heard('five', 'high')],
      judgedAgainst: [say.judgedAgainst('two')],
      sayAgain: ['', ...challenges].map(say.sayAgain),
      recheckWhat: [say.recheckWhat()],
      singleDigits: challenges.map(say.singleDigits),
      useKeys: [say.useKeys()],
      twoValues: [say.twoValues()],
      form: [say.form('digit by digit'), say.form('in the words of the list')],
      valueless: [say.valueless()],
      missing: challenges.map((challenge) =>
        say.missing(challenge, ['direction', 'the rest', 'all digits', 'decimals', ...labels]),
      ),
      coach: pack.papers.map(({ title }) => say.coach([title])),
      limitsOf: labels.flatMap((label) => [
        say.limitsOf(label, 'two seven point five', undefined),
        say.limitsOf(label, undefined, 'five'),
        say.limitsOf(label, 'two', 'five'),
      ]),
      readOff: labels.map(say.readOff),
      simulated: [say.simulated('one zero zero nine')],
      value: labels.map((label) => say.value(label, 'five')),
      noFigure: labels.map(say.noFigure),
      notComputed: labels.map(say.notComputed),
      inUnit: figures.flatMap(({ name, measure }) => {
        if (!asked.has(name)) return []
        const { unit } = measure === undefined ? {} : spokenUnit(measure)
        return unit ? say.inUnit(unitAloud(unit)) : []
      }),
      notGiven: labels.map(say.notGiven),
      yours: labels.map(say.yours),
      ownDiffers: labels.map(say.ownDiffers),
      fits: (
        [
          'earlierRevision',
          'otherFigure',
          'digitsSwapped',
          'neighbourRow',
          'neighbourColumn',
          'otherFlap',
          'otherUnit',
        ] as const
      ).map(say.fits),
      standingBy: [say.standingBy()],
      stillListening: [say.stillListening()],
      youCanSay: [
        say.youCanSay(['the answer', 'say again', 'leave it open']),
        say.youCanSay(['done', 'read the flow', 'what is left']),
        say.youCanSay(['read it back', 'say again', 'stand by']),
        say.youCanSay(['any topic', 'briefing complete', 'continue']),
        say.youCanSay(['the value as it stands', 'where are we', 'disregard']),
        say.youCanSay(['affirm', 'negative', 'stop', 'from the top', 'remark', 'brakes set']),
        ...calls.map(({ label }) => say.youCanSay([label])),
      ],
      openOrPass: [say.openOrPass()],
      left: [say.left('twelve', challenges), say.left('one', challenges.slice(0, 1)), say.left('', [])],
      toTheLine: names.map(say.toTheLine),
      waitingFor: lists
        .flatMap((list) => list.entries)
        .flatMap((entry) => (entry.type === 'line' ? say.waitingFor(entry.label) : [])),
      belowTheLine: [say.belowTheLine()],
      outOfOrder: [...names.map(listName), ...briefings.map(({ name }) => name)].map(say.outOfOrder),
      notFinished: exchanges.map(({ name }) => say.notFinished(name)),
      finalFiguresIn: [say.finalFiguresIn()],
      stillPreliminary: [say.stillPreliminary()],
      pass: challenges.flatMap((challenge) => PASS_REASONS.map((reason) => say.pass(challenge, reason))),
      reasons: [say.reasons()],
      passed: challenges.map(say.passed),
      remark: [say.remark()],
      resuming: names.map(say.resuming),
      allComplete: [say.allComplete()],
      done: [say.done()],
      watch: watches.map(({ name }) => say.watch(name)),
      watched: [...watches, ...briefings].map(({ name }) => say.watched(name)),
      warnings: [
        say.warnings([]),
        ...labels.map((label) =>
          say.warnings([`${label} over limit`, `${label} below limit`, `${label} out of limits`]),
        ),
        ...labels.map((label) => say.warnings([`${label} above ${label}`, `${label} large change`, 'figures warning'])),
      ],
      sources: figures.flatMap(({ label, stated: own }) =>
        own ? [say.sources(label, own.sources.map(sourceWords))] : [],
      ),
      readMe: stated.map(({ label, source }) => say.readMe(label, sourceWords(source))),
      agrees: labels.map(say.agrees),
      differs: labels.map(say.differs),
      // In the pack's wordings, with what was heard: see the transmissions above.
      correction: [say.correction()],
      corrects: [say.corrects(say.simulated('checked'))],
      isCorrect: [say.isCorrect('one two')],
      nothingSkipped: [say.nothingSkipped()],
      notForUs: [say.notForUs()],
      forUs: [say.forUs()],
      nobodyCalled: [say.nobodyCalled()],
      asSaid: [say.asSaid('on')],
      yourChallenge: [say.yourChallenge()],
      holdingAt: challenges.map(say.holdingAt),
      insisted: [],
      topics: [topics, turns.map(({ label }) => label)].filter(({ length }) => length > 0).map(say.topics),
      notCovered: [say.notCovered(topics)],
      orderDiffers: [say.orderDiffers('five two up')],
      notYet: [...interlocks, ...abnormal.flatMap(({ again }) => again ?? [])].flatMap((one) => [
        say.notYet(one.say),
        say.notYet(one.say, 'one two'),
      ]),
      noCall: watches.flatMap((watch) =>
        watch.calls.flatMap(({ label, value }) =>
          [label, value?.label ?? label].map((missing) => say.noCall(missing, watch.stopWords)),
        ),
      ),
      stop: [
        ...abnormal.map(({ stopWords }) => stopWords),
        ...calls.flatMap(({ value }) => value?.stopWords ?? []),
      ].map(say.stop),
      action: abnormal.flatMap(({ actions }) => actions.map(say.action)),
      reply: watches.flatMap(({ calls }) => calls.flatMap(({ reply }) => (reply ? say.reply(reply) : []))),
      readingYou: [say.readingYou()],
      soundCheck: [say.soundCheck()],
      deaf: [say.deaf()],
      hearsAgain: [say.hearsAgain()],
      wayBack: [
        say.wayBack(),
        ...abnormal.flatMap(({ again }) => (again ? [say.wayBack({ say: again.say, seconds: 'seven five' })] : [])),
      ],
      noStart: [say.noStart()],
      alreadyDone: watches.map(({ name }) => say.alreadyDone(name)),
      firstComplete: watches.map(({ name }) => say.firstComplete(name)),
      notCalled: names.map(say.notCalled),
      callOrder: calls.map(({ label }) => say.callOrder(label, label)),
      already: calls.map(({ label }) => say.already(label)),
      outOfRange: [say.outOfRange('five eight')],
      outside: watches.flatMap(({ stopWords, calls }) =>
        [stopWords, ...calls.flatMap(({ value }) => value?.stopWords ?? [])].flatMap((words) => [
          say.outside('five eight', 'low', words),
          say.outside('five eight', 'high', words),
        ]),
      ),
      doesNotFit: calls.map(({ label }) => say.doesNotFit(label)),
      readValue: calls.map(({ label }) => say.readValue(label)),
      calledAt: calls.map(({ label }) => say.calledAt(label, 'one two')),
      lastCalled: watches.flatMap(({ name, calls }) =>
        calls.flatMap(({ label }) => [say.lastCalled(name, label), say.lastCalled(name, label, 'one two')]),
      ),
      readyFor: watches.map(({ name }) => say.readyFor(name)),
      due: interlocks.flatMap(({ due }) => (due === undefined ? [] : [say.due(due)])),
      hold: watches.flatMap(({ hold }) => (hold === undefined ? [] : [say.hold(hold)])),
      limits: [say.limits()],
      lookAt: items.flatMap(({ look }) => (look ? [say.lookAt(look)] : [])),
      step: flows.flatMap(({ steps }) => steps.map(({ text }) => say.step(text))),
      stepsAgain: flows.map(({ name, steps }) =>
        say.stepsAgain(
          name,
          steps.map(({ text }) => text),
        ),
      ),
      flowComplete: [say.flowComplete()],
      back: names.map(say.back),
      onceMore: [say.onceMore()],
      situation: pack.situations.flatMap(({ label, options }) =>
        options.map((option) => say.situation(label, option.label)),
      ),
      quirk: (pack.quirks ?? []).map((quirk) => say.quirk(quirk.say)),
    }
    expect(unsaid(Object.values(texts).flat())).toEqual([])
  })

  test('a value is never said with a word left out', () => {
    const { clips } = recordingOf('otherseat')
    const withoutFive = Object.fromEntries(Object.entries(clips).filter(([text]) => !plainWords(text).includes('five')))
    expect(clipsFor('I heard, five two up.', clips)).toBeDefined()
    expect(clipsFor('I heard, five two up.', withoutFive)).toBeUndefined()
  })
})
