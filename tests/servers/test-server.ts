// What a test gets when it asks for a server, and what happens when there is none.

import { describe, it } from 'vitest'
import { readServerConfig } from './config.js'

export interface TestServer {
  readonly url: string
  readonly from: 'environment' | 'container' | 'binary'
  /** Stops the server and removes its data; a server from the environment is left alone. */
  stop(): Promise<void>
  /** null when the process is not ours to break. */
  readonly faults: ServerFaults | null
}

/** Ways to break a server and mend it again, on the same port and data. */
export interface ServerFaults {
  /** Ends it at once, without a clean shutdown. */
  kill(): Promise<void>
  /** Starts it again; resolves when it answers. */
  start(): Promise<void>
  /** Stops its processes in their tracks: connections stay open and nothing answers. */
  freeze(): Promise<void>
  thaw(): Promise<void>
}

/**
 * `describe` for tests that need a server: without one they fail where CI asks for it and are skipped loudly elsewhere.
 */
export function describeWith<Server extends TestServer>(
  server: Server | null,
  name: string,
  body: (server: Server) => void,
): void {
  if (server !== null) {
    describe(name, () => body(server))
  } else if (readServerConfig().ci) {
    it(`${name}: needs a server, and CI must have one`, () => {
      throw new Error('no server for these tests: neither given by address, nor as a container, nor as a program')
    })
  } else {
    describe.skip(`${name} (no server on this machine)`, () => body(server as never))
  }
}

export function sayMissing(what: string, hint: string): null {
  console.warn(`\n*** ${what} IS MISSING: the tests that need it do not run. ${hint}\n`)
  return null
}
