/** What the compiler refuses: a field that is read and would be dropped. Each expectation below fails to compile where it is not. */

import { expect, test } from 'vitest'
import { exactly, nothingMore, present } from '../../src/packs/present.ts'

interface Light {
  readonly name: string
  readonly caution?: string
}
type Lamp = { readonly kind: 'steady' } | { readonly kind: 'flashing'; readonly seconds: number }
const asLight = exactly<Light>()
const asLamp = exactly<Lamp>()

test('what the kernel knows goes on, without what is undefined', () => {
  const light: Light = asLight({ name: 'master', caution: undefined })
  expect(light).toEqual({ name: 'master' })
  expect(Object.keys(light)).toEqual(['name'])
  const lamp: Lamp = asLamp({ kind: 'flashing' as const, seconds: 2 })
  expect(lamp).toEqual({ kind: 'flashing', seconds: 2 })
  expect(present({ a: 1, b: undefined })).toEqual({ a: 1 })
})

test('what the kernel does not know does not compile', () => {
  const read: { label: string; name: string; colour?: string } = { label: 'x', name: 'master', colour: 'red' }
  const { label: _, ...same } = read
  // @ts-expect-error: colour is no field of a light
  expect(asLight({ ...same })).toHaveProperty('colour')
  // @ts-expect-error: colour is no field of any lamp
  expect(asLamp({ kind: 'steady' as const, colour: 'red' })).toHaveProperty('colour')
  // @ts-expect-error: something is left over
  nothingMore(same)
  const { name: __, colour: ___, ...rest } = same
  nothingMore(rest)
})
