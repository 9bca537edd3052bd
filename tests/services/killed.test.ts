// The whole service killed without warning at several moments of a sweep: after each restart on the same folder it goes on,
// and in the end every request it ever acknowledged has the same answer, byte for byte, and exactly one mail.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import type { Result } from '@ductwright/contract/result'
import { afterAll, expect, it } from 'vitest'
import { endedAt, postTo, quickRequest, resultAt, type ServiceProcess, startProcess } from './service-process.js'

const folder = mkdtempSync(join(tmpdir(), 'ductwright-killed-'))
let service: ServiceProcess | null = null

afterAll(async () => {
  await service?.end('SIGKILL')
  rmSync(folder, { recursive: true, force: true })
})

async function serve(): Promise<{ process: ServiceProcess; address: string }> {
  const process = startProcess(['cli/bin/ductwright.js', 'serve', '--port', '0', '--data', folder], {
    LOG_LEVEL: 'warn',
  })
  service = process
  const address = (await process.line(/^Listening on (http:\S+)$/))[1] ?? ''
  return { process, address }
}

/** Milliseconds between the acknowledgement and the kill. */
const moments = [0, 300, 1200]

it('loses nothing it acknowledged, answers every request alike, and mails each answer once', async () => {
  const ids: string[] = []
  for (const moment of moments) {
    const { process, address } = await serve()
    ids.push(await postTo(address, quickRequest()))
    await sleep(moment)
    expect(await process.end('SIGKILL')).toBeNull()
  }
  const { process, address } = await serve()
  ids.push(await postTo(address, quickRequest()))
  for (const id of ids) {
    const status = await endedAt(address, id)
    expect(status).toMatchObject({ state: 'answered', cause: null, mails: [{ kind: 'answer', state: 'written' }] })
  }
  const results = await Promise.all(ids.map((id) => resultAt(address, id)))
  expect(new Set(results).size).toBe(1)
  expect((JSON.parse(results[0] ?? '') as Result).counts.compatible).toBeGreaterThan(0)
  expect(readdirSync(join(folder, 'mail'))).toHaveLength(ids.length)
  expect(await process.end('SIGTERM')).toBe(0)
}, 180_000)
