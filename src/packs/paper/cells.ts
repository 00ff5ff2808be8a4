/**
 * What divides a line of a checklist: leaders, tabs, columns, bars, a colon, a dash, an arrow, letters that turn to
 * capitals. All by walking along the line once; nothing here goes back.
 */

export type Divider =
  | 'leader'
  | 'tab'
  | 'bar'
  | 'columns'
  | 'arrow'
  | 'equals'
  | 'dash'
  | 'colon'
  | 'blank'
  | 'capitals'

export interface Divided {
  readonly by: Divider
  /** At least two; a leader at an end of the line leaves an empty one there. */
  readonly cells: readonly string[]
  /** Where the last cell begins in the line, from 0. */
  readonly column: number
}

/** What a value is written into. */
export const BLANK = '____'

const LEADERS = new Set(['.', '-', '=', '*', '~', '•'])
const tidy = (text: string) =>
  text
    .split(/[ \t]+/)
    .filter(Boolean)
    .join(' ')

interface Run {
  readonly start: number
  readonly end: number
  readonly count: number
}

/** A run of one sign, single spaces allowed between. */
function runAt(text: string, start: number): Run {
  const sign = text[start]
  let [end, count] = [start, 0]
  while (text[end] === sign || (text[end] === ' ' && text[end + 1] === sign)) {
    if (text[end] === sign) count++
    end++
  }
  return { start, end, count }
}

function leadersIn(text: string): Run[] {
  const runs: Run[] = []
  for (let at = 0; at < text.length; at++) {
    const sign = text[at] ?? ''
    if (!LEADERS.has(sign)) continue
    const run = runAt(text, at)
    if (run.count >= (sign === '.' ? 2 : 3)) runs.push(run)
    at = run.end - 1
  }
  return runs
}

/** Each underlined place as one sign for it, with as many decimals as it shows: "__._" -> "____.1". */
export function withBlanks(text: string): string {
  let made = ''
  for (let at = 0; at < text.length; ) {
    if (text[at] !== '_') {
      made += text[at]
      at++
      continue
    }
    let [end, count, decimals, pointed] = [at, 0, 0, false]
    for (;;) {
      const sign = text[end]
      const next = text[end + 1]
      if (sign === '_') {
        count++
        if (pointed) decimals++
      } else if ((sign === '.' || sign === ',') && next === '_' && !pointed) pointed = true
      else if (!(sign === ' ' && (next === '_' || ((next === '.' || next === ',') && text[end + 2] === '_')))) break
      end++
    }
    made += count > 1 ? `${BLANK}${decimals > 0 ? `.${decimals}` : ''}` : '_'
    at = end
  }
  return made
}

/** At two spaces and more, unless a sentence ended there. */
export function columnsOf(text: string): { readonly cells: string[]; readonly column: number } {
  const cells: string[] = []
  let [from, column] = [0, 0]
  for (let at = 0; at < text.length; at++) {
    if (text[at] !== ' ' && text[at] !== '\t') continue
    let end = at
    while (text[end] === ' ' || text[end] === '\t') end++
    const isGap = text.slice(at, end).includes('\t') || end - at > 2 || (end - at === 2 && text[at - 1] !== '.')
    if (isGap) {
      cells.push(text.slice(from, at).trim())
      from = end
      column = end
    }
    at = end - 1
  }
  cells.push(text.slice(from).trim())
  return { cells: cells.filter(Boolean), column }
}

const at = (by: Divider, text: string, start: number, length: number): Divided => {
  const rest = text.slice(start + length)
  const column = start + length + (rest.length - rest.trimStart().length)
  return { by, cells: [tidy(text.slice(0, start)), tidy(rest)], column }
}

function byLeaders(text: string): Divided | undefined {
  const runs = leadersIn(text)
  if (runs.length === 0) return undefined
  const cells: string[] = []
  let from = 0
  for (const { start, end } of runs) {
    cells.push(text.slice(from, start).trim())
    from = end
  }
  const last = text.slice(from)
  cells.push(last.trim())
  return { by: 'leader', cells, column: from + (last.length - last.trimStart().length) }
}

/** The first colon that stands between words, not in a time. */
function colonIn(text: string): number {
  for (let at = 1; at < text.length - 1; at++) {
    if (text[at] === ':' && !/\d/.test(text[at + 1] ?? '') && text.slice(at + 1).trim() !== '') return at
    if (text[at] === ':' && !/\d/.test(text[at - 1] ?? '')) return at
  }
  return -1
}

const isCapitals = (word: string) => /\p{Lu}/u.test(word) && !/\p{Ll}/u.test(word)

const GO_ON: ReadonlySet<string> = new Set(['or', 'else', 'and', 'if', 'until', 'unless', 'then', 'otherwise'])

/** "Fuel pumps ON": words in small letters, then words in capitals to the end. */
function byCapitals(text: string): Divided | undefined {
  const words = text.split(' ')
  let from = words.length
  while (from > 0 && (isCapitals(words[from - 1] ?? '') || (from < words.length && words[from - 1] === '/'))) from--
  const head = words.slice(0, from)
  if (from === words.length || !head.some((word) => /\p{Ll}{2}/u.test(word))) return undefined
  // "In the green or SHUT DOWN": what stands behind such a word is no answer.
  if (GO_ON.has(head.at(-1)?.toLowerCase() ?? '')) return undefined
  return { by: 'capitals', cells: [head.join(' '), words.slice(from).join(' ')], column: head.join(' ').length + 1 }
}

/** Drawn with one or two signs before its head; with three they are leaders. */
const ARROW = /(?:[-=]{1,2}>|>>)>?/

/** Words of what is asked. */
const MOST_ASKED = 4

export function dividedLine(line: string): Divided | undefined {
  if (line.startsWith('|') || line.includes(' | ')) {
    const cells = line.split('|').map(tidy)
    const inner = cells.slice(cells[0] === '' ? 1 : 0, cells.at(-1) === '' ? -1 : undefined)
    return inner.length > 1 ? { by: 'bar', cells: inner, column: line.length } : undefined
  }
  const leaders = byLeaders(line)
  if (leaders) return leaders
  const { cells, column } = columnsOf(line)
  if (cells.length > 1) return { by: line.includes('\t') ? 'tab' : 'columns', cells: cells.map(tidy), column }
  const arrow = ARROW.exec(line)
  if (arrow && arrow.index > 0) return at('arrow', line, arrow.index, arrow[0].length)
  for (const [by, sign] of [
    ['equals', ' = '],
    ['dash', ' -- '],
    ['dash', ' - '],
    ['arrow', ' > '],
  ] as const) {
    const found = line.indexOf(sign)
    // "FLYING CLUB OF THE VALLEY -- TRAINER" is a title.
    if (sign === ' -- ' && line.slice(0, found).split(' ').length > MOST_ASKED) continue
    if (found > 0) return at(by, line, found, sign.length)
  }
  const colon = colonIn(line)
  if (colon > 0) return at('colon', line, colon, 1)
  const blank = line.indexOf(BLANK)
  if (blank > 0) return at('blank', line, blank, 0)
  return byCapitals(tidy(line))
}
