/** A browser keeps the second model's files for good: other weights need another name. */

import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { PHONES_FILE } from '../../../../src/adapters/ear/device/modelFiles.ts'

it('the head of phones is named by its weights', () => {
  const weights = readFileSync(new URL('../../../../audio/ear/phones.onnx', import.meta.url))
  const hash = createHash('sha256').update(weights).digest('hex')
  expect(PHONES_FILE).toBe(`phones-${hash.slice(0, 8)}.onnx`)
})
