// Enqueueing a row again: nothing while its job lives, a new run afterwards, and merges that never wait in vain.
import { setTimeout as wait } from 'node:timers/promises'
import { PermanentFailure } from '@ductwright/queue/permanent-failure'
import { expect, it } from 'vitest'
import { newId, recorder } from './recorder.js'
import type { Stage } from './stage.js'

export function repeats(stage: Stage): void {
  it('leaves a live job alone however often its row is enqueued', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const mail = newId()
    const repeat = async (): Promise<void> => {
      await jobs.enqueuePlan(sweep)
      await jobs.enqueueShards(sweep, [0, 1])
      await jobs.enqueueMerge(sweep)
      await jobs.enqueueMail(mail)
    }
    await repeat()
    await Promise.all([repeat(), repeat()])
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    await made.until(() => made.calls.length === 5)
    await wait(150)
    expect(made.calls.toSorted()).toEqual(
      [`plan ${sweep}`, `shard ${sweep} 0`, `shard ${sweep} 1`, `merge ${sweep}`, `mail ${mail}`].toSorted(),
    )
  })

  it('runs a finished row again when it is enqueued again', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    for (const round of [1, 2]) {
      await jobs.enqueueShards(sweep, [0])
      await made.until(() => made.count(`merge ${sweep}`) === round)
      await made.until(async () => !(await jobs.isLive({ kind: 'merge-sweep', sweepId: sweep })))
    }
    expect(made.count(`shard ${sweep} 0`)).toBe(2)
  })

  it('runs a merge again when the merge itself asked for shards', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder({
      async mergeSweep(id) {
        if (made.count(`merge ${id}`) === 1) await jobs.enqueueShards(id, [1])
      },
    })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueueShards(sweep, [0, 1])
    await made.until(() => made.count(`merge ${sweep}`) === 2)
    expect(made.count(`shard ${sweep} 0`)).toBe(1)
    expect(made.count(`shard ${sweep} 1`)).toBe(2)
  })

  it('replaces a merge that waits for a shard which is gone', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    let runs = 0
    const made = recorder({
      async runShard(_, index) {
        // Shard 0 is done and enqueued again while shard 1 still runs, as after a plan that died half way.
        if (index === 1 && ++runs === 1) {
          await made.until(async () => !(await jobs.isLive({ kind: 'run-shard', sweepId: sweep, index: 0 })))
          await jobs.enqueueShards(sweep, [0, 1])
        }
        if (index === 0 && made.count(`shard ${sweep} 0`) > 1) throw new PermanentFailure('broken')
      },
    })
    await jobs.work(made.handlers, { shards: 2 })
    await jobs.enqueueShards(sweep, [0, 1])
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.count(`shard ${sweep} 0`)).toBe(2)
    expect(made.count(`shard ${sweep} 1`)).toBe(1)
  })

  it('refuses ids that would not be one', async () => {
    const jobs = await stage.open()
    await expect(jobs.enqueuePlan('a:b')).rejects.toThrow(
      'sweepId must be 1 to 64 letters, digits, "-" or "_", got "a:b"',
    )
    await expect(jobs.enqueueShards(newId(), [0.5])).rejects.toThrow(
      'index must be a whole number of at least 0, got 0.5',
    )
    await expect(jobs.enqueueMail('')).rejects.toThrow('mailId')
  })
}
