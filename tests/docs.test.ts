/** The guides name files, links and commands: what they name must be there. */

import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const filesIn = (folder: string) =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) => `${folder}/${name}`)
const FILES = ['src', 'tests', 'checklists'].flatMap(filesIn)
const GUIDES = ['README.md', 'DEVELOPERS.md', ...FILES.filter((name) => /^(src|checklists)\/.*\.md$/.test(name))]
const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'))

const found = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([, name = '']) => name)

describe.each(GUIDES)('%s', (guide) => {
  const text = readFileSync(join(ROOT, guide), 'utf8')

  it('links to files that are there', () => {
    const links = found(text, /\]\((?!https?:|#)([^)#]+)/g)
    expect(links.filter((link) => !existsSync(join(ROOT, dirname(guide), link)))).toEqual([])
  })

  it('names sources that are there', () => {
    const named = found(text, /`([\w./]*\w\.(?:ts|tsx|json|jsonl))`/g)
    const isThere = (name: string) => existsSync(join(ROOT, name)) || FILES.some((file) => file.endsWith(`/${name}`))
    expect(named.filter((name) => !isThere(name))).toEqual([])
  })

  it('names folders that are there', () => {
    const named = found(text, /`([a-z][\w/]*\/)`/g)
    const isThere = (name: string) =>
      FILES.some((file) => `/${file}/`.includes(`/${name}`)) || existsSync(join(ROOT, name))
    expect(named.filter((name) => !isThere(name))).toEqual([])
  })

  it('names commands that are there', () => {
    const named = found(text, /npm run (?:-s )?([\w:-]+)/g)
    expect(named.filter((name) => !(name in scripts))).toEqual([])
  })
})
