// The servers of the tests themselves: they answer, break and mend on request, and leave nothing behind.

import { spawn } from 'node:child_process'
import { access, mkdtemp, readFile, rm } from 'node:fs/promises'
import { createConnection } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import pg from 'pg'
import { afterAll, describe, expect, it } from 'vitest'
import { testPostgres } from './postgres.js'
import { testRedis } from './redis.js'
import { describeWith } from './test-server.js'

const redis = await testRedis()
const postgres = await testPostgres()
afterAll(async () => {
  await redis?.stop()
  await postgres?.stop()
})

/** What Redis replies to a PING within a moment; null when it says nothing or cannot be reached. */
function ping(url: string): Promise<string | null> {
  const { hostname, port } = new URL(url)
  return new Promise((resolve) => {
    const socket = createConnection({ host: hostname, port: Number(port), timeout: 300 })
    const end = (reply: string | null) => {
      socket.destroy()
      resolve(reply)
    }
    socket.once('connect', () => socket.write('PING\r\n'))
    socket.once('data', (data) => end(data.toString().trim()))
    socket.once('error', () => end(null))
    socket.once('timeout', () => end(null))
  })
}

describeWith(redis, 'a Redis for tests', ({ url, faults }) => {
  it('answers, and is frozen, thawed, killed and started again on request', async () => {
    expect(await ping(url)).toBe('+PONG')
    if (faults === null) return console.warn('this Redis is not ours to break: the faults were not tried')
    await faults.freeze()
    expect(await ping(url)).toBeNull()
    await faults.thaw()
    expect(await ping(url)).toBe('+PONG')
    await faults.kill()
    expect(await ping(url)).toBeNull()
    await faults.start()
    expect(await ping(url)).toBe('+PONG')
  })
})

describeWith(postgres, 'a Postgres for tests', (server) => {
  it('is version 15 or later and gives separate empty databases', async () => {
    const urls = [await server.freshDatabase(), await server.freshDatabase()]
    for (const connectionString of urls) {
      const client = new pg.Client({ connectionString })
      await client.connect()
      await client.query('create table same_name (n integer)')
      const { rows } = await client.query("select current_setting('server_version_num')::int as version")
      expect(rows[0].version).toBeGreaterThanOrEqual(150_000)
      await client.end()
    }
  })
})

describe('the guard of a test server', () => {
  it('ends the server and removes its folder when the tests are killed', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'ductwright-guard-'))
    const pidFile = join(folder, '..', `${folder.split('/').at(-1)}.pid`)
    const server = `require('node:fs').writeFileSync(${JSON.stringify(pidFile)}, String(process.pid)); setInterval(() => {}, 1000)`
    const job = {
      command: process.execPath,
      args: ['-e', server],
      uid: null,
      gid: null,
      folder,
      softSignal: 'SIGTERM',
      hardSignal: 'SIGKILL',
    }
    const guard = fileURLToPath(new URL('./guard.mjs', import.meta.url))
    // Stands for the test run: starts the guard as the tests do, then is killed without a chance to clean up.
    const tests = `require('node:child_process').spawn(process.execPath, [${JSON.stringify(guard)}, ${JSON.stringify(JSON.stringify(job))}],
      { detached: true, stdio: ['pipe', 'ignore', 'inherit'] }); setInterval(() => {}, 1000)`
    const run = spawn(process.execPath, ['-e', tests], { stdio: 'inherit' })
    const pid = Number(await eventually(() => readFile(pidFile, 'utf8').then((text) => text || null)))
    expect(isAlive(pid)).toBe(true)
    run.kill('SIGKILL')
    await eventually(async () => (isAlive(pid) ? null : true))
    await eventually(() =>
      access(folder).then(
        () => null,
        () => true,
      ),
    )
    expect(isAlive(pid)).toBe(false)
    await rm(pidFile)
  })
})

async function eventually<T>(probe: () => Promise<T | null>): Promise<T> {
  for (let tries = 0; tries < 400; tries++) {
    const value = await probe().catch(() => null)
    if (value !== null) return value
    await new Promise((resolve) => setTimeout(resolve, 25))
  }
  throw new Error('it did not happen in time')
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0)
  } catch {
    return false
  }
}
