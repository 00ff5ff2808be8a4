/** The benchmarks of `npm run bench`. */

/** A file in this folder: measures, and has a table where its figures are more than a list. */
export interface Section {
  /** `seed`: for cases other than the usual ones, where cases are made up. */
  measure(seed?: number): Promise<Record<string, number>>
  /** Markdown, for people; without it the figures are listed. */
  table?(measured: Readonly<Record<string, number>>): string
}

export const SECTIONS: Readonly<Record<string, () => Promise<Section>>> = {
  readback: () => import('./readback.ts'),
  exchanges: () => import('./exchanges.ts'),
  figures: () => import('./figures.ts'),
  run: () => import('./run.ts'),
  runs: () => import('./runs.ts'),
  runsPage: () => import('./runsPage.ts'),
  training: () => import('./training.ts'),
  voice: () => import('./voice.ts'),
  pace: () => import('./pace.ts'),
  editor: () => import('./editor.ts'),
  room: () => import('./rooms.ts'),
  bytes: () => import('./bytes.ts'),
  chromium: () => import('./chromium.ts'),
  narration: () => import('./narration.ts'),
}
/** Take many minutes, and run only where they are named. */
export const LONG: ReadonlySet<string> = new Set(['narration', 'chromium'])
