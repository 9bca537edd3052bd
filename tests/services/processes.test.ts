// API and worker as processes of their own on a Postgres server and Redis: work done by another process, a worker killed
// in the middle, the database gone for a while, and clean stops.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type TestPostgres, testPostgres } from '../servers/postgres.js'
import { testRedis } from '../servers/redis.js'
import { describeWith } from '../servers/test-server.js'
import {
  endedAt,
  postTo,
  quickRequest,
  resultAt,
  type ServiceProcess,
  startProcess,
  statusAt,
} from './service-process.js'
import { eventually } from './stand.js'

const redis = await testRedis()
const postgres = redis === null ? null : await testPostgres()

afterAll(async () => {
  await postgres?.stop()
  await redis?.stop()
})

describeWith(postgres, 'API and workers over a Postgres server and Redis', (server: TestPostgres) => {
  const folder = mkdtempSync(join(tmpdir(), 'ductwright-processes-'))
  const running: ServiceProcess[] = []
  let env: Record<string, string>
  let api: ServiceProcess
  let address: string
  let worker: ServiceProcess

  const start = (script: string): ServiceProcess => {
    const started = startProcess([`services/${script}/dist/main.js`], env)
    running.push(started)
    return started
  }

  const startWorker = async (): Promise<ServiceProcess> => {
    const started = start('worker')
    await started.line(/"worker started"/)
    return started
  }

  beforeAll(async () => {
    env = {
      DATABASE_URL: await server.freshDatabase(),
      REDIS_URL: redis?.url ?? '',
      PORT: '0',
      DATA_FOLDER: folder,
      THREADS: '1',
    }
    api = start('api')
    address = (await api.line(/Server listening at (http:\/\/[\d.:]+)/))[1] ?? ''
    worker = await startWorker()
  })

  afterAll(async () => {
    for (const one of running) await one.end('SIGKILL')
    rmSync(folder, { recursive: true, force: true })
  })

  let answer: string

  it('answer a request between them', async () => {
    const id = await postTo(address, quickRequest())
    expect(await endedAt(address, id)).toMatchObject({ state: 'answered', mails: [{ state: 'written' }] })
    answer = await resultAt(address, id)
  })

  it('go on when a worker is killed in the middle of a shard', async () => {
    const id = await postTo(address, quickRequest())
    await eventually(async () => (await statusAt(address, id)).state !== 'accepted', 5)
    expect(await worker.end('SIGKILL')).toBeNull()
    worker = await startWorker()
    expect(await endedAt(address, id)).toMatchObject({ state: 'answered', mails: [{ state: 'written', attempts: 1 }] })
    expect(await resultAt(address, id)).toBe(answer)
  })

  it('answer 503 while the database is gone, and lose nothing they acknowledged', async ({ skip }) => {
    const { faults } = server
    if (faults === null) return skip('this database is not ours to stop')
    const id = await postTo(address, quickRequest())
    await faults.kill()
    const reply = await fetch(`${address}/v1/requests/${id}`)
    expect([reply.status, reply.headers.get('retry-after')]).toEqual([503, '5'])
    expect((await fetch(`${address}/readyz`)).status).toBe(503)
    expect((await fetch(`${address}/healthz`)).status).toBe(200)
    await expect(postTo(address, quickRequest())).rejects.toThrow(/not accepted: 503/)
    await faults.start()
    expect(await endedAt(address, id)).toMatchObject({ state: 'answered' })
    expect(await resultAt(address, id)).toBe(answer)
    expect((await fetch(`${address}/readyz`)).status).toBe(200)
  })

  it('stop cleanly when told to, and the work of a stopped worker is taken up by the next', async () => {
    const id = await postTo(address, quickRequest())
    await eventually(async () => (await statusAt(address, id)).state !== 'accepted', 5)
    expect(await worker.end('SIGTERM')).toBe(0)
    worker = await startWorker()
    expect(await endedAt(address, id)).toMatchObject({ state: 'answered', mails: [{ state: 'written', attempts: 1 }] })
    expect(await resultAt(address, id)).toBe(answer)

    const stopped = api.end('SIGTERM')
    await eventually(async () => (await fetch(`${address}/readyz`)).status === 503)
    expect(await stopped).toBe(0)
    expect(await worker.end('SIGTERM')).toBe(0)
  })

  it('keep addresses out of what they print', () => {
    const printed = running.flatMap((one) => one.lines)
    expect(printed.length).toBeGreaterThan(10)
    expect(printed.filter((line) => line.includes('pilot@example.org'))).toEqual([])
  })

  it('refuse to start with everything that is wrong at once', async () => {
    for (const script of ['api', 'worker']) {
      env = { PORT: 'x', LOG_LEVEL: 'loud', DATABASE_URL: 'mysql://u:hunter2@h', REDIS_URL: 'u' }
      const refused = start(script)
      await refused.line(/LOG_LEVEL/)
      const text = refused.lines.join('\n')
      for (const name of ['DATABASE_URL', 'REDIS_URL', ...(script === 'api' ? ['PORT'] : [])])
        expect(text).toContain(name)
      expect(text).not.toContain('hunter2')
      expect(text).not.toMatch(/\n\s+at /)
      expect(await refused.end('SIGTERM')).not.toBe(0)
    }
  })
})
