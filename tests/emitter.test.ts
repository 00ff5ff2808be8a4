import { expect, it } from 'vitest'
import { createEmitter } from '../src/emitter.ts'

it('calls listeners in the order in which they came, until each has left', () => {
  const told: string[] = []
  const { emit, subscribe } = createEmitter<string>()
  const leave = subscribe((event) => told.push(`first ${event}`))
  subscribe((event) => told.push(`second ${event}`))
  emit('a')
  leave()
  emit('b')
  expect(told).toEqual(['first a', 'second a', 'second b'])
})

it('may gain and lose listeners while it calls them', () => {
  const told: string[] = []
  const { emit, subscribe } = createEmitter<string>()
  const leave = subscribe((event) => {
    told.push(`once ${event}`)
    leave()
    subscribe((next) => told.push(`later ${next}`))
  })
  emit('a')
  emit('b')
  expect(told).toEqual(['once a', 'later b'])
})
