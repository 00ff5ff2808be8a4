/**
 * `npm run bench`: measures the app's parts and prints tables; with `--json` one flat object of the same figures. A
 * section is a file in `bench/` with a `measure`, and a `table` where its figures are more than a list.
 */

export interface Section {
  measure(): Promise<Record<string, number>>
  /** Markdown, for people; without it the figures are listed. */
  table?(measured: Readonly<Record<string, number>>): string
}

const SECTIONS: Readonly<Record<string, () => Promise<Section>>> = {
  readback: () => import('./readback.ts'),
  exchanges: () => import('./exchanges.ts'),
  figures: () => import('./figures.ts'),
  run: () => import('./run.ts'),
  pace: () => import('./pace.ts'),
  bytes: () => import('./bytes.ts'),
  chromium: () => import('./chromium.ts'),
  narration: () => import('./narration.ts'),
}
/** Takes many minutes, and runs only where it is named. */
const LONG: ReadonlySet<string> = new Set(['narration', 'chromium'])

function listed(measured: Readonly<Record<string, number>>): string {
  const rows = Object.entries(measured).map(([name, value]) => `| ${name} | ${Number(value.toFixed(3))} |`)
  return ['| figure | value |', '| --- | --- |', ...rows].join('\n')
}

const args = process.argv.slice(2)
const json = args.includes('--json')
const wanted = args.filter((arg) => !arg.startsWith('--'))
const unknown = wanted.find((name) => !Object.hasOwn(SECTIONS, name))
if (unknown !== undefined) {
  process.stderr.write(`usage: bench [--json] [${Object.keys(SECTIONS).join('|')}]...\n`)
  process.exit(2)
}

const all: Record<string, number> = {}
for (const [name, load] of Object.entries(SECTIONS)) {
  if (wanted.length > 0 ? !wanted.includes(name) : LONG.has(name)) continue
  const section = await load()
  const measured = await section.measure()
  Object.assign(all, measured)
  if (!json) process.stdout.write(`\n## ${name}\n\n${section.table?.(measured) ?? listed(measured)}\n`)
}
if (json) process.stdout.write(`${JSON.stringify(all)}\n`)
