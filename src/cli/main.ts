/** The command line: `npm run -s cli -- <command> [options]`. One file a command; this one only finds it. */

import { guarded, SHOWS_STACK } from './guarded.ts'
import { type CommandRun, usage } from './io.ts'

/** Loaded when called, so that `judge` does not wait for the recogniser's module. */
const COMMANDS: Readonly<Record<string, () => Promise<{ run: CommandRun }>>> = {
  judge: () => import('./judge.ts'),
  hear: () => import('./hear.ts'),
  figures: () => import('./figures.ts'),
  check: () => import('./check.ts'),
  rehearse: () => import('./rehearse.ts'),
  debrief: () => import('./debrief.ts'),
}

const [name = '', ...args] = process.argv.slice(2)
const io = { input: process.stdin, output: process.stdout, errors: process.stderr }
const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
const showsStack = Boolean(process.env[SHOWS_STACK])

/** What was thrown where nobody waits for it. */
function end(error: unknown): void {
  void guarded(io, showsStack, () => Promise.reject(error)).then((status) => process.exit(status))
}
process.on('uncaughtException', end)
process.on('unhandledRejection', end)

// A reader that has seen enough (`| head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0)
  else end(error)
})

process.exitCode = await guarded(io, showsStack, async () => {
  if (!load) return usage(io, `cli <${Object.keys(COMMANDS).join('|')}> [options]`)
  const { run } = await load()
  return run(args, io)
})
