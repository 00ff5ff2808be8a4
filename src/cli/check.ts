/** `check`: validates packs, with every problem at its place and advice apart, and says what each holds; `--schema` prints the JSON Schema of a pack's files. */

import { parseArgs } from 'node:util'
import { isError } from '../kernel/problem.ts'
import { showProblem } from '../kernel/problemLine.ts'
import { onOneLine } from '../kernel/quoted.ts'
import { jsonSchema } from '../packs/schema.ts'
import { type CommandRun, usage } from './io.ts'
import { inputsProblems, readPackDir } from './packDir.ts'
import { summaryOf } from './packSummary.ts'
import { soundAdvice } from './sounds.ts'

const USAGE = 'check DIR... | check --schema'

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, USAGE)
  if (options.schema) {
    io.output.write(`${JSON.stringify(jsonSchema(), null, 2)}\n`)
    return 0
  }
  let failed = false
  for (const dir of options.dirs) {
    const { pack, problems: own } = await readPackDir(dir)
    const problems = pack ? [...own, ...(await inputsProblems(pack, dir, own)), ...(await soundAdvice(pack, dir))] : own
    for (const problem of problems) {
      const stream = isError(problem) ? io.errors : io.output
      stream.write(`${showProblem(problem)}\n`)
    }
    if (pack && !problems.some(isError)) io.output.write(`${onOneLine(dir)}: ${await summaryOf(pack)}\n`)
    failed ||= problems.some(isError)
  }
  return failed ? 1 : 0
}

function read(args: readonly string[]): { readonly dirs: readonly string[]; readonly schema: boolean } | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { schema: { type: 'boolean', default: false } },
      allowPositionals: true,
    })
    return values.schema === positionals.length > 0 ? undefined : { dirs: positionals, schema: values.schema }
  } catch {
    return undefined
  }
}
