import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { createPackFiles } from '../../src/adapters/packFiles.ts'
import { digestBytes } from '../../src/packs/digest.ts'

const folder = fileURLToPath(new URL('../../checklists', import.meta.url))
const packs = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)

describe('packs that come with the app', () => {
  test('every folder under checklists is listed, with its name and aircraft', async () => {
    const listed = await createPackFiles().list()
    expect(listed.map(({ id }) => id).sort()).toEqual([...packs].sort())
    expect(listed.filter(({ name, aircraft }) => name === '' || aircraft === '')).toEqual([])
  })

  test.each(packs)('%s is loaded as it stands in its folder, inputs apart', async (id) => {
    const files = readdirSync(`${folder}/${id}`).filter((file) => file.endsWith('.yaml'))
    const texts = Object.fromEntries(files.map((file) => [file, readFileSync(`${folder}/${id}/${file}`, 'utf8')]))
    const loaded = await createPackFiles().load(id)
    expect(loaded.texts).toEqual(texts)
    expect(loaded.sha256).toBe(createHash('sha256').update(digestBytes(texts)).digest('hex'))
  })
})

test('the examples of a pack go by their names, and are not among its texts', async () => {
  const [read, other] = [async () => 'status: final', async () => 'status: amended']
  const files = createPackFiles(
    { '../../checklists/one/pack.yaml': async () => 'name: One' },
    { '../../checklists/one/inputs/final.yaml': read, '../../checklists/two/inputs/final.yaml': other },
  )
  expect(await files.examples('one')).toEqual({ final: 'status: final' })
  expect(Object.keys((await files.load('one')).texts)).toEqual(['pack.yaml'])
})

const pack = (text: string) => createPackFiles({ '../../checklists/broken/pack.yaml': async () => text })

test('a pack that cannot be read is listed by its folder, so that opening it can say what is wrong', async () => {
  expect(await pack('name: [').list()).toEqual([{ id: 'broken', name: 'broken', aircraft: '' }])
  expect(await pack('').list()).toEqual([{ id: 'broken', name: 'broken', aircraft: '' }])
})

test('a pack that is not there is refused, and those that are there named', async () => {
  await expect(pack('name: x').load('other')).rejects.toThrow('There is no pack other; broken would be right.')
})
