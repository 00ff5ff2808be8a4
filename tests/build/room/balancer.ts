/** A balancer for tests: hands each connection to the first process that it can reach, from the client's own address. */

import { type AddressInfo, connect, createServer, type Socket } from 'node:net'

export interface Balancer {
  readonly address: string
  close(): Promise<void>
}

export async function startBalancer(addresses: readonly string[]): Promise<Balancer> {
  const ports = addresses.map((address) => Number(new URL(address).port))
  const open = new Set<Socket>()
  const server = createServer((client) => {
    open.add(client)
    const from = client.remoteAddress
    const tryNext = ([port, ...others]: readonly number[]) => {
      if (port === undefined) {
        client.destroy()
        return
      }
      let isConnected = false
      const there = connect({ port, host: '127.0.0.1', ...(from && { localAddress: from }) }, () => {
        isConnected = true
        client.pipe(there).pipe(client)
      })
      there.on('error', () => (isConnected ? client.destroy() : tryNext(others)))
      there.on('close', () => isConnected && client.destroy())
      client.on('close', () => there.destroy())
    }
    client.on('error', () => client.destroy())
    client.once('close', () => open.delete(client))
    tryNext(ports)
  })
  await new Promise<void>((done) => server.listen(0, '0.0.0.0', done))
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}`,
    async close() {
      for (const socket of open) socket.destroy()
      await new Promise((done) => server.close(done))
    },
  }
}
