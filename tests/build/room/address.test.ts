import type { IncomingMessage } from 'node:http'
import { describe, expect, it } from 'vitest'
import { createAddressIn } from '../../../src/build/room/address.ts'

const request = (remoteAddress: string, forwarded?: string) =>
  ({ socket: { remoteAddress }, headers: { 'x-forwarded-for': forwarded } }) as unknown as IncomingMessage

describe('from where a request comes', () => {
  const addressIn = createAddressIn(['10.74.0.0/24', '192.0.2.7', 'fd00::/8'])

  it.each<readonly [remote: string, forwarded: string | undefined, is: string]>([
    ['203.0.113.5', undefined, '203.0.113.5'],
    ['::ffff:203.0.113.5', undefined, '203.0.113.5'],
    // Whoever is no balancer may say what he likes.
    ['203.0.113.5', '198.51.100.1', '203.0.113.5'],
    ['10.74.0.2', '198.51.100.1', '198.51.100.1'],
    ['::ffff:10.74.0.2', '198.51.100.1', '198.51.100.1'],
    // The client itself wrote the first; the balancer wrote the last.
    ['10.74.0.2', '127.0.0.1, 198.51.100.1', '198.51.100.1'],
    // By two balancers.
    ['10.74.0.2', '1.2.3.4, 198.51.100.1, 192.0.2.7', '198.51.100.1'],
    ['fd00::2', '2001:db8::1', '2001:db8::1'],
    ['10.74.0.2', undefined, '10.74.0.2'],
    ['10.74.0.2', 'unknown', '10.74.0.2'],
  ])('%s, forwarded for %s: %s', (remote, forwarded, is) => {
    expect(addressIn(request(remote, forwarded))).toBe(is)
  })

  it.each(['balancer', '10.0.0.0/33', '10.0.0.0/x', ''])('%j is no address of a balancer', (one) => {
    expect(() => createAddressIn([one])).toThrow(`--balancer ${one}: not an address or a network such as 10.0.0.0/8`)
  })
})
