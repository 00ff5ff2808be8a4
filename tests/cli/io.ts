/** Runs a command with its own streams, in this process. */

import { PassThrough, Readable } from 'node:stream'
import type { CommandRun, ExitStatus } from '../../src/cli/io.ts'

export async function runCommand(
  run: CommandRun,
  args: readonly string[],
  input = '',
): Promise<{ status: ExitStatus; output: string; errors: string }> {
  const streams = { output: new PassThrough(), errors: new PassThrough() }
  const texts = { output: '', errors: '' }
  streams.output.on('data', (chunk) => {
    texts.output += chunk
  })
  streams.errors.on('data', (chunk) => {
    texts.errors += chunk
  })
  const status = await run(args, { input: Readable.from([input]), ...streams })
  return { status, ...texts }
}
