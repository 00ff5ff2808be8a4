import { existsSync, readFileSync } from 'node:fs'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { licenceOf, licenceText, packageFolder } from '../../src/build/licences.ts'

const PACKAGES = fileURLToPath(new URL('../../node_modules/', import.meta.url))
let dir: string
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), 'otherseat-licences-'))
})
afterAll(() => rm(dir, { recursive: true }))

const manifest = (about: object) => writeFile(join(dir, 'package.json'), JSON.stringify(about))

describe('what may ship', () => {
  it.each(['GPL-3.0-only', 'UNLICENSED', undefined])(
    'licence %s stops the build, by the name of the package',
    async (license) => {
      await manifest({ name: 'tail', version: '1.2.3', license })
      expect(() => licenceOf(dir)).toThrow(
        `tail 1.2.3: licence ${license ?? 'none named'}; what ships is under one of MIT,`,
      )
    },
  )

  it('an allowed one brings its text', async () => {
    await manifest({ name: 'tail', version: '1.2.3', license: 'ISC' })
    await writeFile(join(dir, 'LICENSE.md'), 'Do as you like.\n')
    const tail = licenceOf(dir)
    expect(tail).toEqual({ name: 'tail', version: '1.2.3', licence: 'ISC', text: 'Do as you like.' })
    expect(licenceText([tail])).toMatch(/tail 1\.2\.3: ISC[\s\S]*Do as you like\./)
  })
})

describe('the package of a module', () => {
  it('is the one that has a version, also from a folder with a manifest of its own', () => {
    expect(packageFolder(join(PACKAGES, 'preact/hooks/dist/hooks.mjs'))).toBe(join(PACKAGES, 'preact'))
  })

  it('is none of ours, and none of a module that was made up', () => {
    expect(packageFolder(fileURLToPath(import.meta.url))).toBeUndefined()
    expect(packageFolder('\0vite/preload-helper.js')).toBeUndefined()
  })
})

describe('what the server of rooms is made of', () => {
  /** With all that they need themselves, as Node finds it from where it is needed. */
  function folders(name: string, from: string, found = new Set<string>()): ReadonlySet<string> {
    const folder = [join(from, 'node_modules', name), join(PACKAGES, name)].find((one) => existsSync(one))
    // An optional one that is not installed here.
    if (folder === undefined || found.has(folder)) return found
    found.add(folder)
    const { dependencies = {} } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    for (const other of Object.keys(dependencies)) folders(other, folder, found)
    return found
  }

  it.each(['@hocuspocus/server', 'ioredis', 'node-sqlite3-wasm', 'pg', 'sirv', 'uqr', 'ws', 'y-protocols', 'yjs'])(
    '%s and what it needs may be passed on',
    (name) => {
      const needed = [...folders(name, PACKAGES)]
      expect(needed).toContain(join(PACKAGES, name))
      expect(needed.map((folder) => licenceOf(folder).licence)).not.toContain('none named')
    },
  )
})
