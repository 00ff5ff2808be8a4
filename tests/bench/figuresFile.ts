/**
 * Figures that were measured, in `audio/figures.json`, and the page that is made of them, `audio/FIGURES.md`. Each is kept
 * with the moment, commit and machine that it was measured at, so that a part can be measured anew.
 */

import { readFile, writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { type EarFigures, earPage } from './earFigures.ts'
import { SECTIONS } from './sections.ts'
import { type Stamp, stamped } from './stamp.ts'

export const FIGURES = fileURLToPath(new URL('../../audio/figures.json', import.meta.url))
export const PAGE = fileURLToPath(new URL('../../audio/FIGURES.md', import.meta.url))

export interface StoredFigures {
  readonly ear: EarFigures
  /** Of other benchmarks, by the name of their section. */
  readonly sections: Readonly<Record<string, { readonly stamp: Stamp; readonly measured: Record<string, number> }>>
}

export async function readFigures(): Promise<StoredFigures> {
  const text = await readFile(FIGURES, 'utf8').catch(() => undefined)
  return text === undefined ? { ear: {}, sections: {} } : JSON.parse(text)
}

/** Writes both files. */
export async function writeFigures(figures: StoredFigures): Promise<void> {
  await writeFile(FIGURES, `${JSON.stringify(figures, undefined, 2)}\n`)
  await writeFile(PAGE, await figuresPage(figures))
}

/** Markdown. */
export async function figuresPage({ ear, sections }: StoredFigures): Promise<string> {
  const parts = Object.entries(sections).map(async ([name, { stamp, measured }]) => {
    const section = await SECTIONS[name]?.()
    const table = section?.table?.(measured) ?? listed(measured)
    return `## ${name}\n\n\`npm run bench -- ${name}\`, measured ${stamped(stamp)}.\n\n${table}\n`
  })
  return [earPage(ear), ...(await Promise.all(parts))].join('\n')
}

export function listed(measured: Readonly<Record<string, number>>): string {
  const rows = Object.entries(measured).map(([name, value]) => `| ${name} | ${Number(value.toFixed(3))} |`)
  return ['| figure | value |', '| --- | --- |', ...rows].join('\n')
}
