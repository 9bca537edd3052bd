// Handlers that throw: retries, the report when there are none left, and the merge that comes all the same.
import { setTimeout as wait } from 'node:timers/promises'
import { PermanentFailure } from '@ductwright/queue/permanent-failure'
import { expect, it } from 'vitest'
import { newId, recorder } from './recorder.js'
import type { Stage } from './stage.js'

export function failures(stage: Stage): void {
  it('retries a failing shard, reports it once, and still merges', async () => {
    const jobs = await stage.open({ attempts: 3 })
    const sweep = newId()
    const made = recorder({
      async runShard(_, index) {
        if (index === 1) throw new Error('broken')
      },
    })
    await jobs.work(made.handlers, { shards: 2 })
    await jobs.enqueueShards(sweep, [0, 1])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    await wait(150)
    expect(made.count(`shard ${sweep} 1`)).toBe(2)
    expect(made.count(`shard ${sweep} 1 last try`)).toBe(1)
    expect(made.calls.slice(-2)).toEqual([`failed run-shard ${sweep} 1 broken`, `merge ${sweep}`])
    expect(await jobs.isLive({ kind: 'run-shard', sweepId: sweep, index: 1 })).toBe(false)
  })

  it('merges when every shard has failed', async () => {
    const jobs = await stage.open({ attempts: 1 })
    const sweep = newId()
    const made = recorder({ runShard: () => Promise.reject(new Error('broken')) })
    await jobs.work(made.handlers, { shards: 3 })
    await jobs.enqueueShards(sweep, [0, 1, 2])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls.filter((call) => call.startsWith('failed'))).toHaveLength(3)
  })

  it('retries a mail until it goes out', async () => {
    const jobs = await stage.open()
    const mail = newId()
    const made = recorder({
      async sendMail() {
        if (made.count(`mail ${mail}`) < 3) throw new Error('greylisted')
      },
    })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueMail(mail)
    await made.until(
      async () => made.count(`mail ${mail}`) === 3 && !(await jobs.isLive({ kind: 'send-mail', mailId: mail })),
    )
    expect(made.calls).toHaveLength(3)
  })

  it('does not retry a permanent failure', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder({ planSweep: () => Promise.reject(new PermanentFailure('no such fan')) })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueuePlan(sweep)
    await made.until(() => made.calls.length === 2)
    await wait(100)
    expect(made.calls).toEqual([`plan ${sweep}`, `failed plan-sweep ${sweep}  no such fan`])
  })

  it('goes on when reporting a failure fails, and says so', async () => {
    const jobs = await stage.open({ mailAttempts: 1 })
    const mail = newId()
    const made = recorder({
      sendMail: () => Promise.reject(new Error('refused')),
      failed: () => Promise.reject(new Error('no database')),
    })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueMail(mail)
    await made.until(async () => made.calls.length === 2 && !(await jobs.isLive({ kind: 'send-mail', mailId: mail })))
    expect(stage.log.map((entry) => entry.event)).toContain('failure-not-recorded')
  })
}
