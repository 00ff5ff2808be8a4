/**
 * Everything that Otherseat says of its own accord, composed from fixed fragments and the pack's
 * names, so that an embedded voice can hold all of it. No function here takes a figure: what is
 * spoken before the pilot has answered cannot give a value away (law 4). `value` takes words that are
 * already spoken form and is used only once a value was asked for or is being coached.
 */

import { capital } from '../../capital.ts'
import type { Status } from '../../figures/model.ts'
import { PASS_REASONS, type PassReason, reasonWords } from '../../response/commands.ts'
import type { Cause } from '../../response/model.ts'

/** What a wrong value fits, as it is said. */
const FITS: Readonly<Record<Cause['cause'], string>> = {
  earlierRevision: 'earlier figures',
  otherFigure: 'another figure',
  digitsSwapped: 'digits swapped',
  neighbourRow: 'one row off, or not interpolated',
  neighbourColumn: 'one column off',
  otherFlap: 'another flap',
  otherUnit: 'another unit',
}

/** Fragments, as the voice says them; an embedded voice has a clip for each. */
export const FIXED_PHRASES = [
  'figures are in',
  'preliminary',
  'final',
  'amended',
  'recheck',
  'recheck what',
  'say recheck and the item',
  'no change to items done',
  'figures changed',
  'changed',
  'and',
  'incomplete',
  'complete',
  'complete on preliminary figures',
  'complete except',
  'I heard',
  'no start is running',
  'say again',
  'cannot copy',
  'type it',
  'or hold',
  'still listening',
  'two values',
  'which one',
  'the rest',
  'direction',
  'all digits',
  'decimals',
  'again',
  'revision',
  'here',
  'newer one',
  'standing by',
  'items left',
  'one item left',
  'nothing left',
  'left open',
  'memory items',
  'on your call',
  'to the line',
  'waiting for',
  'below the line',
  'out of order',
  'not done',
  'not finished',
  'do that first',
  'final figures in',
  'is complete already',
  'pass',
  'confirm',
  'say the reason',
  'not fitted',
  'simulator fault',
  "instructor's word",
  'training',
  'passed',
  'check the',
  'no figure yet for',
  'enter it on the figures page',
  'resuming',
  'all lists complete',
  'set',
  'remark noted',
  'say it',
  'digit by digit',
  'in the words of the list',
  'correction',
  'steps',
  'redo',
  'done',
  'list',
  'figures warning',
  'over limit',
  'below limit',
  'out of limits',
  'above',
  'large change',
  'accepted',
  'see the figures page',
  'read me the',
  'from the',
  'agrees',
  'your',
  'I have another',
  ...Object.values(FITS),
  'disagrees',
  'settle it on the figures page',
  'not yet',
  'nothing on',
  'yet',
  'no',
  'or call it',
  'is low',
  'is high',
  'or recheck',
  'does not fit the readings',
  'already',
  'ready for',
  "limits are the flight manual's",
  'look before you act',
  'say from the top',
  'reading you five',
  'sound check',
  'read the lines on the screen',
  'nothing heard',
  'microphone',
  'I hear you again',
  'is not complete',
  'is out of range',
  'value',
  'seconds',
  'look at',
  'not called',
  'one back if you like',
  'critical item',
  'confirm again',
  'flow complete',
  'still on preliminary figures',
  'known fault of the simulator',
  'stopped',
  'confirm brakes set',
  'edition',
  'you can say',
  'the answer',
  'the value as it stands',
  'read the flow',
  'read it back',
  'any topic',
  'leave it open or pass',
  'simulated',
  'new editions',
  'at least',
  'at most',
  'between',
  'read it off the gauge',
  'drill over',
  'right this time',
  'better than last time',
  'as last time',
  'worse than last time',
  'right',
  'not all right',
  'say it in',
  'checked',
  'is correct',
  'nothing skipped',
  'as I said',
  'your challenge',
  'nobody called us',
  'not for us',
  'that was for us',
  'holding at',
] as const

const sentence = (...parts: readonly (string | undefined)[]) => {
  const text = parts.filter((part) => part).join(', ')
  return text === '' ? '' : `${capital(text)}.`
}
const ask = (text: string) => `${capital(text)}?`

/** "a, b and c" */
export function listed(names: readonly string[]): string {
  const head = names.slice(0, -1).join(', ')
  const last = names.at(-1) ?? ''
  return head ? `${head} and ${last}` : last
}

/** A list by its name: "before start" is called the before start list. */
export const listName = (name: string) => (/\b(check)?list$/i.test(name) ? name : `${name} list`)

/** What a watch is of: "right engine start" is of the right engine. */
export const engineOf = (watch: string) => watch.replace(/ start$/i, '')

/** One function for each thing that Otherseat says. */
export const say = {
  challenge: (challenge: string) => ask(challenge),
  flow: (flow: string) => sentence(flow),
  callFor: (list: string) => sentence(`${listName(list)} on your call`),
  list: (list: string) => sentence(listName(list)),
  completed: (list: string, onPreliminary: boolean) =>
    sentence(`${listName(list)} ${onPreliminary ? 'complete on preliminary figures' : 'complete'}`),
  notComplete: (list: string, open: readonly string[]) => sentence(`${listName(list)} complete except ${listed(open)}`),
  alreadyComplete: (list: string) => sentence(`${listName(list)} is complete already`),
  leftOpen: () => sentence('left open'),
  /** Items that the pilot says without being asked for each. */
  fromMemory: () => sentence('memory items'),
  figuresIn: (status: Status) => sentence(`${status} figures are in`),
  figuresChanged: () => sentence('figures changed'),
  openAgain: (names: readonly string[]) => sentence(`recheck ${listed(names)}`),
  /** No item is called what was to be rechecked. */
  recheckWhat: () => `${ask('recheck what')} ${sentence('say recheck and the item')}`,
  /** Papers that came in, each with the number of its edition. */
  papersIn: (papers: readonly { readonly title: string; readonly number: number }[]) => {
    const [only] = papers
    if (!only) return ''
    return papers.length === 1
      ? sentence(only.title, `edition ${only.number}`)
      : sentence(listed(papers.map(({ title }) => title)), 'new editions')
  },
  changed: (labels: readonly string[]) => (labels.length === 0 ? '' : sentence(`${listed(labels)} changed`)),
  nothingChanges: () => sentence('no change to items done'),
  revoked: (list: string) => sentence(`${listName(list)} incomplete`),
  /** `side`: of a reading that is outside its limits. */
  heard: (words: string, side?: 'low' | 'high') =>
    sentence(`I heard ${words}`, side && (side === 'low' ? 'below limit' : 'over limit')),
  /** It was said in another unit. */
  inUnit: (unit: string) => sentence(`say it in ${unit}`),
  judgedAgainst: (revision: string) => `${sentence(`revision ${revision} here`)} ${ask('newer one')}`,
  sayAgain: (challenge: string) => sentence('say again', challenge),
  singleDigits: (challenge: string) => sentence(`say again ${challenge}`, 'digit by digit'),
  useKeys: () => `${sentence('cannot copy')} ${sentence('type it', 'or hold')}`,
  stillListening: () => sentence('still listening'),
  twoValues: () => `${sentence('two values')} ${ask('which one')}`,
  form: (form: string) => sentence(`say it ${form}`),
  valueless: () => ask('value'),
  missing: (challenge: string, parts: readonly string[]) => ask(`${challenge}, ${listed(parts)}`),
  /** Papers by their titles. */
  coach: (papers: readonly string[]) => sentence(`check the ${listed(papers)}`),
  /** Where a reading must lie, when it was refused too often. */
  limitsOf: (label: string, min: string | undefined, max: string | undefined) =>
    sentence(
      label,
      min === undefined ? `at most ${max}` : max === undefined ? `at least ${min}` : `between ${min} and ${max}`,
    ),
  /** What a gauge shows is not Otherseat's to tell. */
  readOff: (label: string) => sentence(label, 'read it off the gauge'),
  simulated: (text: string) => sentence(text, 'simulated'),
  correction: () => sentence('correction'),
  /** What its own seat should have answered. */
  corrects: (text: string) => `${sentence('correction')} ${text}`,
  /** `values` have been said before (law 4). */
  isCorrect: (values: string) => sentence(`${values} is correct`),
  /** That something is set it can repeat, and not confirm. */
  asSaid: (text: string) => sentence(text, 'as I said', 'simulated'),
  yourChallenge: () => sentence('your challenge'),
  nothingSkipped: () => sentence('nothing skipped'),
  notForUs: () => sentence('correction', 'not for us'),
  nobodyCalled: () => sentence('nobody called us'),
  forUs: () => sentence('that was for us'),
  holdingAt: (challenge: string) => sentence(`holding at ${challenge}`),
  value: (label: string, value: string) => sentence(label, value),
  noFigure: (label: string) => `${sentence(`no figure yet for ${label}`)} ${sentence('enter it on the figures page')}`,
  /** What was entered leads to no value, as beyond a table: which one stands on the screen. */
  notComputed: (label: string) => `${sentence(`no figure yet for ${label}`)} ${sentence('see the figures page')}`,
  /** A station gives it: nobody can enter it. */
  notGiven: (label: string) => sentence(`no figure yet for ${label}`),
  stopped: () => `${sentence('stopped')} ${sentence('standing by')}`,
  brakesSet: () => ask('confirm brakes set'),
  standingBy: () => sentence('standing by'),
  youCanSay: (phrases: readonly string[]) => sentence('you can say', ...phrases),
  openOrPass: () => ask('leave it open or pass'),
  left: (count: string, names: readonly string[]) =>
    names.length === 0
      ? sentence('nothing left')
      : sentence(names.length === 1 ? 'one item left' : `${count} items left`, ...names),
  toTheLine: (list: string) => sentence(`${listName(list)} to the line`),
  waitingFor: (label: string) => sentence(`waiting for ${label}`),
  belowTheLine: () => sentence('below the line'),
  /** `next`: a list or a briefing, as it is called. */
  outOfOrder: (next: string) => `${sentence(`${next} not done`)} ${ask('do that first')}`,
  /** `next`: an exchange that was begun. */
  notFinished: (next: string) => `${sentence(`${next} not finished`)} ${ask('do that first')}`,
  finalFiguresIn: () => ask('final figures in'),
  stillPreliminary: () => sentence('still on preliminary figures'),
  pass: (challenge: string, reason: PassReason) =>
    `${sentence(`pass ${challenge}`, reasonWords(reason))} ${ask('confirm')}`,
  reasons: () => sentence('say the reason', ...PASS_REASONS.map(reasonWords)),
  passed: (challenge: string) => sentence(`${challenge} passed`),
  remark: () => sentence('remark noted'),
  resuming: (list: string) => sentence(`resuming ${listName(list)}`),
  allComplete: () => sentence('all lists complete'),
  done: () => sentence('done'),
  watch: (watch: string) => sentence(watch),
  readyFor: (watch: string) => sentence(`ready for ${engineOf(watch)}`),
  watched: (watch: string) => sentence(`${watch} complete`),
  /** `short`: what is beyond its limit, without a value; "figures warning" where that has no short form. */
  warnings: (short: readonly string[]) =>
    `${short.length > 0 ? sentence(listed(short)) : sentence('figures warning', 'see the figures page')} ${ask('confirm accepted')}`,
  readMe: (label: string, source: string) => sentence(`read me the ${label}`, `from the ${source}`),
  /** Where a value may be read off. */
  sources: (label: string, sources: readonly string[]) => sentence(label, ...sources.map((one) => `from the ${one}`)),
  yours: (label: string) => ask(`your ${label}`),
  ownDiffers: (label: string) => sentence(`I have another ${label}`),
  /** What a wrong value fits. */
  fits: (cause: keyof typeof FITS) => sentence(FITS[cause]),
  agrees: (label: string) => sentence(`${label} agrees`),
  differs: (label: string) => sentence(`${label} disagrees`, 'settle it on the figures page'),
  insisted: (order: string) => sentence(order),
  topics: (labels: readonly string[]) => ask(labels.join(', ')),
  notCovered: (labels: readonly string[]) => sentence(`nothing on ${listed(labels)} yet`),
  orderDiffers: (heard: string) => ask(`confirm ${heard}`),
  /** `seconds`: what is left, where only time has to pass. */
  notYet: (caution: string, seconds?: string) => sentence('not yet', caution, seconds && `${seconds} seconds`),
  noCall: (label: string, stopWords: string) => `${sentence(`no ${label}`)} ${sentence(stopWords, 'or call it')}`,
  stop: (stopWords: string) => sentence(stopWords),
  action: (action: string) => sentence(action),
  readingYou: () => sentence('reading you five'),
  soundCheck: () => `${sentence('sound check')} ${sentence('read the lines on the screen')}`,
  deaf: () => `${sentence('nothing heard')} ${ask('microphone')}`,
  hearsAgain: () => sentence('I hear you again'),
  /** `wait`: what has to be kept up until then, and for how long. */
  wayBack: (wait?: { readonly say: string; readonly seconds: string }) =>
    [wait ? sentence(wait.say, `${wait.seconds} seconds`) : '', sentence('say from the top')].join(' ').trim(),
  noStart: () => sentence('no start is running'),
  alreadyDone: (watch: string) => sentence(`${watch} is complete already`),
  firstComplete: (name: string) => sentence('not yet', `${name} is not complete`),
  notCalled: (list: string) => sentence('not yet', listName(list), 'not called'),
  callOrder: (call: string, missing: string) => `${sentence('out of order', call)} ${ask(missing)}`,
  /** A call that nobody can have seen yet. */
  already: (call: string) => `${ask('already')} ${sentence(`confirm ${call}`)}`,
  outOfRange: (value: string) => `${sentence(`${value} is out of range`)} ${ask('confirm')}`,
  /** It may have been misread: the order, and the way to put it right. */
  outside: (value: string, side: 'low' | 'high', stopWords: string) =>
    `${sentence(`${value} is ${side}`)} ${sentence(stopWords, 'or recheck')}`,
  /** It is not what lies between two values that were read out before. */
  doesNotFit: (label: string) => sentence(`${label} does not fit the readings`),
  readValue: (call: string) => ask(`${call}, value`),
  calledAt: (call: string, seconds: string) => sentence(call, `${seconds} seconds`),
  lastCalled: (watch: string, call: string, seconds?: string) =>
    sentence(`${engineOf(watch)} ${call}`, seconds && `${seconds} seconds`),
  /** A call of Otherseat's own in a watch. */
  reply: (text: string) => sentence(text),
  due: (text: string) => sentence(text),
  hold: (hold: string) => sentence(hold),
  limits: () => `${sentence("limits are the flight manual's")} ${sentence('look before you act')}`,
  lookAt: (look: readonly string[]) => sentence(`look at ${listed(look)}`),
  step: (text: string) => sentence(text),
  /** `steps` by their short names. */
  stepsAgain: (flow: string, steps: readonly string[]) =>
    sentence(`redo ${flow.charAt(0).toLowerCase()}${flow.slice(1)}`, ...steps),
  flowComplete: () => sentence('flow complete'),
  back: (list: string) => sentence(`resuming ${listName(list)}`, 'one back if you like'),
  onceMore: () => `${sentence('critical item')} ${ask('confirm again')}`,
  situation: (label: string, option: string) => sentence(label, option),
  /** By misses, beside those of the last time where it is known. */
  againOver: (misses: number, lastMisses: number | undefined) => {
    if (lastMisses === undefined) return sentence('drill over', misses === 0 ? 'right' : 'not all right')
    if (misses === lastMisses) return sentence('drill over', 'as last time')
    if (misses > lastMisses) return sentence('drill over', 'worse than last time')
    return sentence('drill over', misses === 0 ? 'right this time' : 'better than last time')
  },
  quirk: (text: string) => sentence('known fault of the simulator', text),
} as const
