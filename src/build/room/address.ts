/** From where a request comes, also behind balancers: what these say of it is believed, and nobody else's word. */

import type { IncomingMessage } from 'node:http'
import { BlockList, isIP } from 'node:net'

/** `balancers`: addresses or networks (10.0.0.0/8). Throws at what is none. */
export function createAddressIn(balancers: readonly string[]): (request: IncomingMessage) => string {
  const known = new BlockList()
  for (const one of balancers) {
    const [address = '', bits] = one.split('/')
    const family = isIP(address)
    const most = family === 6 ? 128 : 32
    if (family === 0 || !(bits === undefined || (/^\d+$/.test(bits) && Number(bits) <= most)))
      throw new Error(`--balancer ${one}: not an address or a network such as 10.0.0.0/8`)
    known.addSubnet(address, bits === undefined ? most : Number(bits), `ipv${family as 4 | 6}`)
  }
  const isKnown = (address: string) => isIP(address) !== 0 && known.check(address, `ipv${isIP(address) as 4 | 6}`)
  return ({ socket, headers }) => {
    let address = plain(socket.remoteAddress ?? 'unknown')
    // Each of them adds at the end from where it had the request.
    const way = String(headers['x-forwarded-for'] ?? '')
      .split(',')
      .map((one) => plain(one.trim()))
    while (isKnown(address)) {
      const before = way.pop()
      if (before === undefined || isIP(before) === 0) break
      address = before
    }
    return address
  }
}

const plain = (address: string) => address.replace(/^::ffff:/, '')
