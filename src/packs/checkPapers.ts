/** Whether papers can be printed: what they name exists, and nothing on them is a value that Otherseat computes. */

import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import type { FiguresText } from './figuresSchema.ts'
import type { PackText } from './packSchema.ts'
import type { PapersText } from './papersSchema.ts'
import { listsIn, type ProceduresText } from './proceduresSchema.ts'
import { type Report, reporting } from './reporting.ts'
import type { Path, Source } from './source.ts'
import type { TablesText } from './tablesSchema.ts'

/** Files that could not be read are undefined: what papers name of them is not checked. */
export interface PapersGround {
  readonly pack: PackText | undefined
  readonly figures: FiguresText | undefined
  readonly tables: TablesText | undefined
  readonly procedures: ProceduresText | undefined
}

type PaperText = PapersText['papers'][string]

export function checkPapers(source: Source, { papers }: PapersText, ground: PapersGround): Problem[] {
  const problems: Problem[] = []
  const report = reporting(source, problems)
  const titles = new Set<string>()
  for (const [name, paper] of Object.entries(papers)) {
    const at: Path = ['papers', name]
    const title = paper.title.toLowerCase().trim().replace(/\s+/g, ' ')
    if (titles.has(title)) report('id.duplicate', [...at, 'title'], `two papers are called ${quoted(paper.title)}`)
    titles.add(title)
    checkPaper(paper, at, ground, report)
  }
  return problems
}

function checkPaper(paper: PaperText, at: Path, { pack, figures, tables, procedures }: PapersGround, report: Report) {
  const knows = (names: readonly string[] | undefined, name: string, what: string, path: Path) => {
    if (names && !names.includes(name)) {
      report('paper.unknown', path, `no ${what} is called ${quoted(name)}`, { name, known: () => names })
    }
  }
  if (paper.lines.length === 0 && paper.tables.length === 0 && paper.lists.length === 0) {
    report('paper.empty', at, `${quoted(paper.title)} holds nothing; give it lines, tables or lists`)
  }
  const { edition } = paper
  if (edition !== undefined) {
    knows(figures && Object.keys(figures.figures), edition, 'figure', [...at, 'edition'])
    const numbers = figures?.figures[edition]
    if (numbers && (numbers.kind !== 'integer' || !numbers.entered)) {
      report(
        'paper.edition',
        [...at, 'edition'],
        `${edition} should be an integer that is entered, to number the editions`,
      )
    }
  }
  const sources = figures && Object.values(figures.figures).flatMap(({ stated }) => stated?.sources ?? [])
  const isSourced = paper.source === undefined || !sources || sources.includes(paper.source)
  if (paper.source !== undefined) knows(sources && [...new Set(sources)], paper.source, 'source', [...at, 'source'])
  for (const [index, line] of paper.lines.entries()) {
    const path: Path = [...at, 'lines', index]
    if ('figure' in line) {
      knows(figures && Object.keys(figures.figures), line.figure, 'figure', [...path, 'figure'])
      // Under a source that nobody knows every line would be another mistake.
      if (isSourced) checkFigure(paper, line.figure, figures, [...path, 'figure'], report)
    }
    if ('load' in line) knows(figures && Object.keys(figures.stations), line.load, 'station', [...path, 'load'])
    if ('situation' in line) {
      knows(pack && Object.keys(pack.situations), line.situation, 'situation', [...path, 'situation'])
    }
  }
  const lists = procedures && listsIn(procedures)
  for (const [index, name] of paper.tables.entries()) {
    knows(tables && Object.keys(tables.tables), name, 'table', [...at, 'tables', index])
  }
  const named = paper.lists === 'all' ? [] : paper.lists
  for (const [index, name] of named.entries()) knows(lists, name, 'list', [...at, 'lists', index])
}

/** A paper is somebody's word: what only Otherseat works out has nobody who could have printed it. */
function checkFigure(
  { source, title }: PaperText,
  name: string,
  figures: FiguresText | undefined,
  path: Path,
  report: Report,
) {
  const figure = figures?.figures[name]
  if (!figure?.derived || (source !== undefined && figure.stated?.sources.includes(source))) return
  const remedy =
    source === undefined
      ? 'give the paper a source, and name it in the figure'
      : `name ${source} among the sources of ${name}`
  report('paper.computed', path, `${quoted(title)} cannot print ${name}, which Otherseat computes; ${remedy}`)
}
