/**
 * `npm run synthesiser -- flite_2.2.orig.tar.gz`: compiles flite to WebAssembly, one file for each role's voice, and puts
 * its licence and their checksums beside them. Needs `emcc`. On Debian, with sources enabled: `apt-get install emscripten` and
 * `apt-get source --download-only --tar-only flite`. Its result is committed, so nobody else does.
 */

import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  chmodSync,
  copyFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { ROLES, type Role } from '../kernel/pack/roles.ts'
import { SPEAKERS } from './speakers.ts'

const ARCHIVE_SHA256 = 'ab1555fe5adc3f99f1d4a1a0eb1596d329fd6d74f1464a0097c81f53c0cf9e5c'

const ENGINE = ['regex', 'speech', 'synth', 'stats', 'lexicon', 'wavesynth', 'hrg', 'cg'].map((name) => `src/${name}`)
/** Of these folders not all: some of it is for other systems, some is included by the rest. */
const CHOSEN = [
  ...'alloc args endian error features file_stdio mmap_none socket string tokenstream url val val_const val_user wchar'
    .split(' ')
    .map((name) => `src/utils/cst_${name}.c`),
  ...'lex lex_data lex_entries lts_model lts_rules postlex'.split(' ').map((name) => `lang/cmulex/cmu_${name}.c`),
  'src/audio/au_streaming.c',
]
const COMPILE = ['-O3', '-w', '-Iinclude', '-Ilang/usenglish', '-Ilang/cmulex']
/** No glue of the compiler's: `flite.ts` is all that the module needs around it. */
const LINK = [
  ...['-sSTANDALONE_WASM', '--no-entry', '-sEXPORTED_FUNCTIONS=_malloc'],
  ...['-sALLOW_MEMORY_GROWTH', '-sINITIAL_MEMORY=8MB', '-sTOTAL_STACK=1MB'],
]

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const sha256 = (file: string) => createHash('sha256').update(readFileSync(file)).digest('hex')

/** In the sources' folder: paths in the result are the same on every machine. */
function compile(folder: string, sources: readonly string[]): string[] {
  return sources.map((source) => {
    const object = `${basename(source, '.c')}.o`
    execFileSync('emcc', [...COMPILE, '-c', source, '-o', object], { cwd: folder, stdio: 'inherit' })
    return object
  })
}

function filesIn(folder: string, path: string): string[] {
  return readdirSync(join(folder, path))
    .filter((name) => name.endsWith('.c'))
    .sort()
    .map((name) => `${path}/${name}`)
}

function link(folder: string, role: Role, engine: readonly string[]): string {
  const voice = `cmu_us_${SPEAKERS[role]}`
  const objects = compile(folder, filesIn(folder, `lang/${voice}`))
  const wasm = here(`audio/voice/${role}.wasm`)
  const shim = ['-I', 'include', `-DVOICE=${voice}`, here('src/build/flite/say.c')]
  execFileSync('emcc', ['-O3', '-w', ...shim, ...engine, ...objects, '-o', wasm, ...LINK], {
    cwd: folder,
    stdio: 'inherit',
  })
  // The compiler marks it as a program.
  chmodSync(wasm, 0o644)
  process.stdout.write(`${role}: ${voice}, ${Math.round(statSync(wasm).size / 1000)} kB\n`)
  return `${sha256(wasm)}  ${role}.wasm\n`
}

const [archive] = process.argv.slice(2)
if (archive === undefined || sha256(archive) !== ARCHIVE_SHA256) {
  throw new Error(`name the archive of flite 2.2, flite_2.2.orig.tar.gz, with the SHA-256 ${ARCHIVE_SHA256}`)
}
const folder = mkdtempSync(join(tmpdir(), 'otherseat-flite-'))
try {
  execFileSync('tar', ['xzf', resolve(archive), '-C', folder, '--strip-components=1'])
  const sources = [...ENGINE, 'lang/usenglish'].flatMap((path) => filesIn(folder, path))
  const engine = compile(folder, [...sources, ...CHOSEN])
  copyFileSync(join(folder, 'COPYING'), here('audio/voice/flite-COPYING.txt'))
  writeFileSync(here('audio/voice/SHA256SUMS'), ROLES.map((role) => link(folder, role, engine)).join(''))
} finally {
  rmSync(folder, { recursive: true, force: true })
}
