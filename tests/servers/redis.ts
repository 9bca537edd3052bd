// A Redis for tests: the one given by TEST_REDIS_URL, else a container if an engine answers, else `redis-server` from
// the PATH on a free port of the loopback interface; null, loudly, when there is none.

import { mkdtemp } from 'node:fs/promises'
import { createConnection } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readServerConfig } from './config.js'
import { engineAnswers } from './container-engine.js'
import { GuardedProcess } from './guarded-process.js'
import { findProgram, freePort } from './local-program.js'
import { sayMissing, type TestServer } from './test-server.js'

export interface RedisOptions {
  /** Further arguments of the server, for instance a memory limit; only for one started as a program. */
  readonly args?: readonly string[]
}

export async function testRedis(options: RedisOptions = {}): Promise<TestServer | null> {
  const config = readServerConfig()
  if (config.redisUrl !== null) {
    return { url: config.redisUrl, from: 'environment', stop: async () => undefined, faults: null }
  }
  if (options.args === undefined && (await engineAnswers(config))) return startContainer()
  const program = await findProgram('redis-server', config.path)
  if (program === null) return sayMissing('REDIS', 'Install redis-server, or set TEST_REDIS_URL.')
  return startProgram(program, options.args ?? [])
}

async function startContainer(): Promise<TestServer> {
  const { RedisContainer } = await import('@testcontainers/redis')
  const container = await new RedisContainer('redis:7-alpine')
    .withCommand(['redis-server', '--appendonly', 'yes', '--maxmemory-policy', 'noeviction'])
    .start()
  return {
    url: container.getConnectionUrl(),
    from: 'container',
    stop: async () => void (await container.stop()),
    faults: null,
  }
}

async function startProgram(program: string, args: readonly string[]): Promise<TestServer> {
  for (let attempt = 0; attempt < 3; attempt++) {
    const port = await freePort()
    const folder = await mkdtemp(join(tmpdir(), 'ductwright-redis-'))
    const process = await GuardedProcess.launch(
      {
        command: program,
        args: [...serverArgs(port, folder), ...args],
        uid: null,
        gid: null,
        folder,
        softSignal: 'SIGTERM',
        hardSignal: 'SIGKILL',
      },
      () => answersPing(port),
    )
    if (process === null) continue
    const url = `redis://127.0.0.1:${port}`
    return { url, from: 'binary', stop: () => process.stop(), faults: process }
  }
  throw new Error('redis-server did not start in three attempts')
}

/** Append-only with a sync per write and no eviction: what the service demands of a Redis. */
function serverArgs(port: number, folder: string): string[] {
  const persistence = ['--save', '', '--appendonly', 'yes', '--appendfsync', 'always']
  const policy = ['--maxmemory-policy', 'noeviction', '--daemonize', 'no']
  return ['--port', String(port), '--bind', '127.0.0.1', '--dir', folder, ...persistence, ...policy]
}

function answersPing(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection({ host: '127.0.0.1', port, timeout: 500 })
    const end = (answer: boolean) => {
      socket.destroy()
      resolve(answer)
    }
    socket.once('connect', () => socket.write('PING\r\n'))
    socket.once('data', (data) => end(data.toString().startsWith('+PONG')))
    socket.once('error', () => end(false))
    socket.once('timeout', () => end(false))
  })
}
