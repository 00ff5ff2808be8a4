/** The command line: `npm run -s cli -- <command> [options]`. One file a command; this one only finds it. */

import { type CommandRun, type ExitStatus, usage } from './io.ts'

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

// A reader that has seen enough (`| head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
  process.exit(0)
})

let status: ExitStatus
if (load) {
  const command = await load()
  status = await command.run(args, io)
} else {
  status = usage(io, `cli <${Object.keys(COMMANDS).join('|')}> [options]`)
}
process.exitCode = status
