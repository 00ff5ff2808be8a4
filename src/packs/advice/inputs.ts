/** Example revisions against their pack: what its figures find wrong with them, and what none of them holds. */

import { compute } from '../../kernel/figures/compute.ts'
import { restsUnder } from '../../kernel/figures/dependencyClosure.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import type { Problem } from '../../kernel/problem.ts'
import { type Expected, type ReadInputs, readInputs } from '../inputs.ts'
import { parseSource } from '../source.ts'

/** A revision with the problems of its file and, where `isComputed`, of its figures. */
export function revisionIn(text: string, file: string, pack: Pack, isComputed: boolean): ReadInputs {
  const { inputs, expected = [], problems } = readInputs(text, file, pack)
  if (inputs && !isComputed) return { inputs, problems }
  return inputs
    ? {
        inputs,
        problems: [
          ...problems,
          ...computedAdvice(text, file, pack, inputs, problems),
          ...exampleProblems(pack, inputs, expected),
        ],
      }
    : { problems }
}

/**
 * What the figures make of a revision: advice, for a limit may be broken on purpose. Of what is missing all is told, of
 * the rest what stands first: most of what comes behind it rests on it.
 */
function computedAdvice(
  text: string,
  file: string,
  pack: Pack,
  inputs: Inputs,
  problems: readonly Problem[],
): Problem[] {
  const source = parseSource(file, text)
  const told = new Set(problems.map(({ message }) => message))
  const found = compute(pack.figures, inputs).problems.filter(({ message }) => !told.has(message))
  const station = ({ message }: Problem) =>
    pack.figures.stations.find(({ label }) => message.startsWith(`load ${label} `))?.name
  const advice = (problem: Problem, more = ''): Problem => {
    const name = station(problem)
    const place = name === undefined ? source.placeOfKey([], 'values') : source.place(['loads', name])
    return { ...problem, message: `${problem.message}${more}`, place, severity: 'advice' }
  }
  const missing = found.filter(({ code }) => code === 'input.missing')
  const [first, ...rest] = found.filter(({ code }) => code !== 'input.missing')
  const more = rest.length === 0 ? '' : ` (and ${rest.length} more, which "figures" tells)`
  return [
    ...missing.map((problem) => advice(problem, '; add it to values')),
    ...(first ? [advice(first, `: so it is with this sheet${more}`)] : []),
  ]
}

/** A worked example is recomputed: of figures that rest on one another only the first that comes out otherwise is told. */
function exampleProblems(pack: Pack, inputs: Inputs, expected: readonly Expected[]): Problem[] {
  const { figures } = compute(pack.figures, inputs)
  const wrong = expected.filter(({ declaration: { name, measure }, value }) => {
    const computed = ownOf(figures, name)?.value
    return typeof computed === 'number' && measure ? Math.abs(computed - Number(value)) > DUST : computed !== value
  })
  const names = wrong.map(({ declaration }) => declaration.name)
  const first = wrong.filter(({ declaration: { name } }) => {
    const under = restsUnder(pack.figures, name)
    return !names.some((other) => other !== name && under.has(other))
  })
  return first.map(({ declaration: { name, label, measure }, value, place }) => {
    const computed = ownOf(figures, name)?.value
    const came =
      computed === undefined ? 'has no value with this sheet' : `comes out as ${formatMeasured(computed, measure)}`
    const message = `${label} ${came}, not as ${formatMeasured(value, measure)}; one of the two is wrong`
    return { code: 'expect.differs', message, place, severity: 'error' }
  })
}

const DUST = 1e-9

/** Without the voices outside nobody gives these figures, and an item that says one stops the run. */
export function adviseUnheld(pack: Pack, sheets: readonly Inputs[]): Problem[] {
  const { declarations } = pack.figures
  const source = parseSource('figures.yaml', pack.texts['figures.yaml'] ?? '')
  const isHeld = (name: string) => sheets.some(({ values }) => ownOf(values, name) !== undefined)
  const under = (name: string): string[] => {
    const { derived, given } = ownOf(declarations, name) ?? {}
    return [...(given ? [name] : []), ...(derived?.uses ?? []).flatMap(under)]
  }
  const said = new Set(readBackOf(pack).flatMap(under))
  return [...said].flatMap((name) => {
    if (isHeld(name)) return []
    const message = `a station gives ${name} and an item rests on it, but no file in inputs/ holds it: a run without the voices outside stops there; add it to values of one`
    return {
      code: 'advice.unheld',
      message,
      severity: 'advice' as const,
      place: source.place(['figures', name, 'given']),
    }
  })
}
