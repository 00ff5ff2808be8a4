/** The figures of the ear's benchmark as they are kept, and their page. */

import { type Stamp, stamped } from './stamp.ts'
import { interval, type Tally } from './tally.ts'

/** What the benchmark hears in -> how its page calls that. */
export const CONDITIONS = {
  clean: 'quiet',
  snr20: 'cockpit-like noise, 20 dB below the voice',
  snr15: 'the same, 15 dB',
  snr10: 'the same, 10 dB',
  snr5: 'the same, 5 dB',
  air10: 'airflow over the band of speech, 10 dB below the voice',
  babble20: 'four people who talk all the time, 20 dB fainter',
  babble10: 'the same, 10 dB fainter',
} as const
export type Condition = keyof typeof CONDITIONS

export interface MeasuredCondition {
  readonly stamp: Stamp
  readonly seed: number
  readonly secondModel: boolean
  /** All answers, and people's among them. */
  readonly all: Tally
  readonly people: Tally
  /** Absent where the machine had other work: accuracy does not depend on time, but these do. */
  readonly times?: Times
}

/** Milliseconds in the middle, and of 95 in 100. */
export interface Times {
  /** From the last voiced sound to the verdict. */
  readonly fromVoice: readonly [number, number]
  /** From the end of the pause that ends the answer to the verdict. */
  readonly fromEndpoint: readonly [number, number]
}

export type EarFigures = { readonly [Name in Condition]?: MeasuredCondition }

/** Markdown. */
export function earPage(figures: EarFigures): string {
  const measured = (Object.keys(CONDITIONS) as Condition[]).flatMap((name) => {
    const condition = figures[name]
    return condition ? [{ name, ...condition }] : []
  })
  const table = (head: readonly string[], rows: readonly (readonly string[])[]) =>
    [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n')
  const stamps = new Map<string, string[]>()
  for (const { name, stamp, seed, secondModel } of measured) {
    const how = `${stamped(stamp)}, seed ${seed}, ${secondModel ? 'two models' : 'one model'}`
    stamps.set(how, [...(stamps.get(how) ?? []), CONDITIONS[name]])
  }
  return `${INTRODUCTION}
## How well it hears

${table(
  ['', 'right at the first saying', 'within two sayings', 'right ones called wrong', 'wrong ones accepted'],
  measured.map(({ name, all }) => [
    CONDITIONS[name],
    interval(all.rightAccepted, all.rightTried),
    interval(all.rightOfSaidTwice, all.saidTwice),
    String(all.rightCalledNegative),
    interval(all.wrongAccepted, all.wrongTried),
  ]),
)}

People alone, who read strings of 3 to 10 digits, one recording each:

${table(
  ['', 'right', 'called wrong', 'wrong ones accepted'],
  measured.map(({ name, people }) => [
    CONDITIONS[name],
    interval(people.rightAccepted, people.rightTried),
    String(people.rightCalledNegative),
    interval(people.wrongAccepted, people.wrongTried),
  ]),
)}

Sentences that answer nothing, taken for an answer, in quiet: ${
    figures.clean ? interval(figures.clean.all.otherTaken, figures.clean.all.otherTried) : 'not measured'
  }.

## How soon

Computed from the times of the passes and the second model in Node, as if each had a thread of its own; milliseconds in the
middle and of 95 in 100.

${table(
  ['', 'last voiced sound to verdict', 'end of the pause to verdict'],
  measured.map(({ name, times }) => [
    CONDITIONS[name],
    times ? times.fromVoice.join(' and ') : BUSY,
    times ? times.fromEndpoint.join(' and ') : BUSY,
  ]),
)}

## Where and when

${[...stamps].map(([how, conditions]) => `- ${conditions.join('; ')}: ${how}`).join('\n')}
`
}

const BUSY = 'the machine was busy'

const INTRODUCTION = `# Figures of the ear

Made by \`npm run bench:ear -- --write\` and \`npm run bench -- --write SECTION\` from \`figures.json\`; not to be edited.

Voices, speakers and values are apart from those that settings were chosen on. Half of the synthetic answers are words of a
checklist, half are values; each is said twice, the second time a little slower, which counts only where the first was asked
for again. Of each answer every near wrong one is judged as well: each single digit changed, neighbours swapped, the other
direction; of words the contrary, the left-out "not", and every other answer. Percentages have their 95 % intervals. The
synthetic values come from the seed; the words of checklists are few and come again with every seed, and people's strings
are the same for every seed. Whether the recordings of people, which are public, were among those that the models were
trained on is not known.
`
