/**
 * `figures`: every figure of a revision with its spoken form and why it is what it is; `--against` compares with
 * another revision and names the items that would reopen. One JSON object a line.
 */

import { parseArgs } from 'node:util'
import { compute, figureOf } from '../kernel/figures/compute.ts'
import { type FigureSet, type Inputs, STATUSES } from '../kernel/figures/model.ts'
import { changesBetween, grossErrors, itemsResting } from '../kernel/figures/revise.ts'
import { sayValue, showValue } from '../kernel/kinds/table.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import { itemsOf, listsOf } from '../kernel/pack/place.ts'
import { restsOf } from '../kernel/pack/rests.ts'
import { isError, type Problem } from '../kernel/problem.ts'
import { showProblem } from '../kernel/problemLine.ts'
import { readInputs } from '../packs/inputs.ts'
import { readTextFile } from './files.ts'
import { type CommandRun, type Io, usage } from './io.ts'
import { readPackDir } from './packDir.ts'

const USAGE = 'figures --pack DIR --inputs FILE.yaml [--against FILE.yaml]'

interface Options {
  readonly pack: string
  readonly inputs: string
  readonly against?: string
}

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, USAGE)
  const { pack, problems } = await readPackDir(options.pack)
  if (!pack) return tell(io, problems)
  const first = await computed(pack, options.inputs)
  if (!first.set) return tell(io, first.problems)
  if (options.against === undefined) {
    printFigures(first.set, io)
    printReadings(pack, io)
    return tell(io, first.problems)
  }
  const second = await computed(pack, options.against)
  if (!second.set) return tell(io, second.problems)
  printChanges(pack, inOrder(first, second), io)
  return tell(io, [...first.problems, ...second.problems])
}

interface Revised {
  readonly inputs?: Inputs
  readonly set?: FigureSet
  readonly problems: readonly Problem[]
}

/** A file's figures; problems of the figures stand at the head of the file, those of its entries at their places. */
async function computed(pack: Pack, file: string): Promise<Revised> {
  const read = await readTextFile(file)
  if ('wrong' in read) {
    const message = `${file}: ${read.wrong}; name a file of inputs`
    return { problems: [{ code: 'file.unreadable', message, severity: 'error' }] }
  }
  const { inputs, problems } = readInputs(read.text, file, pack)
  if (!inputs) return { problems }
  const set = compute(pack.figures, inputs)
  const told = new Set(problems.map(({ message }) => message))
  const more = set.problems.filter(({ message }) => !told.has(message))
  return {
    inputs,
    set,
    problems: [...problems, ...more.map((one) => ({ ...one, place: { file, line: 1, column: 1 } }))],
  }
}

function printFigures(set: FigureSet, io: Io): void {
  for (const { name, label, value, exact, unit, preliminary, sources, why } of Object.values(set.figures)) {
    const figure = figureOf(set, name)
    const line = {
      figure: name,
      label,
      value: value ?? null,
      exact,
      unit,
      shown: figure && showValue(figure),
      spoken: figure && sayValue(figure, 'plain'),
      preliminary,
      sources,
      why,
    }
    io.output.write(`${JSON.stringify(line)}\n`)
  }
}

/** What is read off gauges in the run has no value here. */
function printReadings(pack: Pack, io: Io): void {
  for (const { name, label, unit, read } of Object.values(pack.figures.declarations)) {
    if (read) io.output.write(`${JSON.stringify({ figure: name, label, value: null, unit, read })}\n`)
  }
}

type Both = readonly [before: Required<Revised>, after: Required<Revised>]

/** The earlier one first: by status, and where that is the same, the one named by `--inputs`. */
function inOrder(one: Revised, other: Revised): Both {
  const rank = ({ inputs }: Revised): number => STATUSES.indexOf(inputs?.status ?? 'preliminary')
  return (rank(one) <= rank(other) ? [one, other] : [other, one]) as unknown as Both
}

function printChanges(pack: Pack, [before, after]: Both, io: Io): void {
  const changes = changesBetween(before.set, after.set)
  const write = (line: object): void => void io.output.write(`${JSON.stringify(line)}\n`)
  for (const { figure, label, from, to, spoken } of changes) {
    const exact = [before.set.figures[figure]?.exact, after.set.figures[figure]?.exact]
    write({ change: figure, label, from: from ?? null, to: to ?? null, exactFrom: exact[0], exactTo: exact[1], spoken })
  }
  const initial = Object.fromEntries(pack.situations.map((situation) => [situation.name, situation.initial]))
  const values = Object.fromEntries(
    Object.values(after.set.figures).flatMap(({ name, value }) => (value === undefined ? [] : [[name, value]])),
  )
  const ground = { situation: { ...initial, ...after.inputs.situation }, values }
  for (const list of listsOf(pack)) {
    const items = itemsOf(list, ground)
    const resting = itemsResting(
      items.map((item) => ({ id: item.id, restsOn: restsOf(item, ground) })),
      changes,
    )
    for (const { id, challenge } of items.filter((item) => resting.includes(item.id))) {
      write({ reopens: id, challenge, list: list.name })
    }
  }
  for (const { message } of grossErrors(pack.figures, before.set, after.set)) write({ advice: message })
}

/** Errors to standard error; advice does not fail. */
function tell(io: Io, problems: readonly Problem[]): 0 | 1 {
  for (const problem of problems) {
    if (isError(problem)) io.errors.write(`${showProblem(problem)}\n`)
    else io.output.write(`${JSON.stringify({ advice: problem.message, place: problem.place })}\n`)
  }
  return problems.some(isError) ? 1 : 0
}

function read(args: readonly string[]): Options | undefined {
  const string = { type: 'string' } as const
  try {
    const { values } = parseArgs({ args: [...args], options: { pack: string, inputs: string, against: string } })
    const { pack, inputs, against } = values
    return pack && inputs ? { pack, inputs, ...(against && { against }) } : undefined
  } catch {
    return undefined
  }
}
