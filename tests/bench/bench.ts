/**
 * `npm run bench`: measures the app's parts and prints tables; with `--json` one flat object of the same figures. What
 * is made up comes of the same seed each time, or of `--seed N`: nothing was ever looked at with a new one. With
 * `--write` the sections that are named go to `audio/figures.json` and to the page that is made of it.
 */

import { listed, readFigures, writeFigures } from './figuresFile.ts'
import { LONG, SECTIONS } from './sections.ts'
import { stampNow } from './stamp.ts'

const args = process.argv.slice(2)
const isJson = args.includes('--json')
const writes = args.includes('--write')
const seedAt = args.indexOf('--seed')
const seed = seedAt < 0 ? undefined : Number(args[seedAt + 1])
const wanted = args.filter((arg, index) => !arg.startsWith('--') && (seedAt < 0 || index !== seedAt + 1))
const unknown = wanted.find((name) => !Object.hasOwn(SECTIONS, name))
if (unknown !== undefined || (writes && wanted.length === 0) || (seed !== undefined && !Number.isInteger(seed))) {
  process.stderr.write(
    `usage: bench [--json] [--seed N] [${Object.keys(SECTIONS).join('|')}]...\n       bench --write SECTION...\n`,
  )
  process.exit(2)
}

const all: Record<string, number> = {}
for (const [name, load] of Object.entries(SECTIONS)) {
  if (wanted.length > 0 ? !wanted.includes(name) : LONG.has(name)) continue
  const section = await load()
  const stamp = stampNow()
  const measured = await section.measure(seed)
  Object.assign(all, measured)
  if (!isJson) process.stdout.write(`\n## ${name}\n\n${section.table?.(measured) ?? listed(measured)}\n`)
  if (writes) {
    const figures = await readFigures()
    await writeFigures({ ...figures, sections: { ...figures.sections, [name]: { stamp, measured } } })
  }
}
if (isJson) process.stdout.write(`${JSON.stringify(all)}\n`)
