// What runs after what, and how much at once.
import { setTimeout as wait } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import { expect, it } from 'vitest'
import { newId, recorder } from './recorder.js'
import { type Stage, shortLock } from './stage.js'

function computeOffThread(ms: number): Promise<void> {
  const body = `const end = Date.now() + ${ms}; while (Date.now() < end);`
  return new Promise((resolve, reject) => {
    new Worker(body, { eval: true }).on('error', reject).on('exit', () => resolve())
  })
}

export function workOrder(stage: Stage): void {
  it('runs plan, then shards, then the merge', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder({ planSweep: (id) => jobs.enqueueShards(id, [0, 1, 2]) })
    await jobs.work(made.handlers, { shards: 2 })
    await jobs.enqueuePlan(sweep)
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls[0]).toBe(`plan ${sweep}`)
    expect(made.calls.slice(1, 4).sort()).toEqual([0, 1, 2].map((index) => `shard ${sweep} ${index}`))
    expect(made.calls).toHaveLength(5)
  })

  it('runs at most the given number of shards at once', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    let running = 0
    let most = 0
    const made = recorder({
      async runShard() {
        most = Math.max(most, ++running)
        await wait(40)
        running--
      },
    })
    await jobs.work(made.handlers, { shards: 2 })
    await jobs.enqueueShards(sweep, [0, 1, 2, 3, 4])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(most).toBe(2)
  })

  it('merges at once when there is no shard to run', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueShards(sweep, [])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls).toEqual([`merge ${sweep}`])
  })

  it('delays a mail', async () => {
    const jobs = await stage.open()
    const mail = newId()
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    const askedAt = Date.now()
    await jobs.enqueueMail(mail, 300)
    await made.until(() => made.count(`mail ${mail}`) === 1)
    expect(Date.now() - askedAt).toBeGreaterThanOrEqual(290)
  })

  it('starts a shard once that computes on another thread for three times the lock', async () => {
    const jobs = await stage.open(shortLock)
    const sweep = newId()
    const made = recorder({ runShard: () => computeOffThread(3_000) })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueShards(sweep, [0])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls).toEqual([`shard ${sweep} 0`, `merge ${sweep}`])
    expect(stage.log.filter((entry) => entry.event === 'job-stalled' || entry.event === 'lock-lost')).toEqual([])
  })
}
