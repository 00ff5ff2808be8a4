/**
 * `npm test`: types, lint, then all tests in Node, in a simulated page and in a real browser. Whatever
 * happens, the very last line is `N passed, N failed`, and the exit status says the same.
 */

import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { constants, setPriority, tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { buildSite } from './browser/site.ts'
import { chromiumOrWhy } from './chromium.ts'
import { installDatabases } from './databases.ts'

interface Count {
  readonly passed: number
  readonly failed: number
}

interface Manner {
  readonly env?: NodeJS.ProcessEnv
  /** Leaves the processor to whoever else wants it. */
  readonly yields?: boolean
}

/** A run of tests that takes longer will never end. */
const STUCK_MS = 45 * 60_000

const require = createRequire(import.meta.url)
const say = (line: string) => process.stdout.write(`${line}\n`)

/** Runs a program that is installed with the project, by its package, without a shell. */
function runs(name: string, args: readonly string[], { env = {}, yields = false }: Manner = {}): Promise<boolean> {
  const manifest = require.resolve(`${name}/package.json`)
  const { bin } = JSON.parse(readFileSync(manifest, 'utf8'))
  const program = join(dirname(manifest), typeof bin === 'string' ? bin : (Object.values<string>(bin)[0] ?? ''))
  const child = spawn(process.execPath, [program, ...args], {
    stdio: 'inherit',
    env: { ...process.env, ...env },
    timeout: STUCK_MS,
  })
  if (yields && child.pid !== undefined) setPriority(child.pid, constants.priority.PRIORITY_LOW)
  return new Promise((resolve) => {
    child.once('error', (error) => {
      say(`${name}: ${error.message}`)
      resolve(false)
    })
    child.once('exit', (status) => resolve(status === 0))
  })
}

function check(title: string, passed: boolean): Count {
  if (!passed) say(`FAILED: ${title}`)
  return passed ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }
}

/** Counts from vitest's own report. A report that is missing, or claims less than its exit status, is a failure. */
async function tests(projects: readonly string[], manner: Manner): Promise<Count> {
  const folder = mkdtempSync(join(tmpdir(), 'otherseat-'))
  const report = join(folder, 'report.json')
  const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`]
  const ok = await runs('vitest', [...args, ...projects.flatMap((project) => ['--project', project])], manner)
  try {
    const { numPassedTests, numFailedTests, numTotalTests, testResults } = JSON.parse(readFileSync(report, 'utf8'))
    // A file that fails before its first test has none to count.
    const files = testResults.filter(
      (file: { status: string; assertionResults: unknown[] }) =>
        file.status === 'failed' && file.assertionResults.length === 0,
    ).length
    const failed = numFailedTests + files
    return { passed: numPassedTests, failed: failed > 0 || (ok && numTotalTests > 0) ? failed : 1 }
  } catch {
    say('FAILED: vitest ended without a report')
    return { passed: 0, failed: 1 }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function all(): Promise<Count[]> {
  const counts = [
    check('types', await runs('typescript', ['-p', 'tsconfig.json'])),
    check('types of the kernel', await runs('typescript', ['-p', 'tsconfig.kernel.json'])),
    check('lint', await runs('@biomejs/biome', ['check', '.', '--error-on-warnings'])),
  ]
  const chromium = chromiumOrWhy()
  installDatabases()
  if (!('path' in chromium)) {
    return [...counts, check(`browser tests: ${chromium.why}`, false), await tests(['node', 'ui'], {})]
  }
  buildSite()
  const env = { CHROME_PATH: chromium.path, SITE_IS_BUILT: 'yes' }
  // Sound goes at its own pace and leaves time for the others, but must never wait for them.
  const beside = await Promise.all([tests(['sound'], { env }), tests(['node', 'ui', 'screens'], { env, yields: true })])
  return [...counts, ...beside]
}

let counts: Count[]
try {
  counts = await all()
} catch (error) {
  say(`FAILED: ${error instanceof Error ? error.stack : error}`)
  counts = [{ passed: 0, failed: 1 }]
}
const passed = counts.reduce((sum, count) => sum + count.passed, 0)
const failed = counts.reduce((sum, count) => sum + count.failed, 0)
say(`${passed} passed, ${failed} failed`)
process.exitCode = failed === 0 ? 0 : 1
