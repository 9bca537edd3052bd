// The end of a worker, orderly or not: its work comes back to the others.
import { setTimeout as wait } from 'node:timers/promises'
import { expect, it } from 'vitest'
import { newId, recorder, untilAborted } from './recorder.js'
import { type Stage, shortLock } from './stage.js'

export function endings(stage: Stage): void {
  it('returns unfinished work when it closes, and refuses to start again', async () => {
    const first = await stage.open()
    const sweep = newId()
    const held = recorder({ runShard: (_, __, ___, signal) => untilAborted(signal) })
    await first.work(held.handlers, { shards: 1 })
    await first.enqueueShards(sweep, [0])
    await held.until(() => held.calls.length === 1)
    await first.close(100)
    await expect(first.work(held.handlers, { shards: 1 })).rejects.toThrow('after close()')
    expect(stage.log.map((entry) => entry.event)).toContain('job-returned')

    const second = await stage.open()
    expect((await second.load()).waiting).toBeGreaterThan(0)
    const made = recorder()
    await second.work(made.handlers, { shards: 1 })
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    // Given back, not failed: the try did not count and nothing was reported.
    expect(made.calls).toEqual([`shard ${sweep} 0`, `merge ${sweep}`])
    expect(held.calls).toHaveLength(1)
  })

  it('lets running work finish within the grace', async () => {
    const first = await stage.open()
    const sweep = newId()
    const made = recorder({ runShard: () => wait(300) })
    await first.work(made.handlers, { shards: 1 })
    await first.enqueueShards(sweep, [0])
    await made.until(() => made.calls.length === 1)
    await first.close(5_000)
    const second = await stage.open()
    expect(await second.isLive({ kind: 'run-shard', sweepId: sweep, index: 0 })).toBe(false)
    await second.cancelSweep(sweep)
  })

  it('reruns the shard of a worker that was killed', async () => {
    const sweep = newId()
    await stage.dieInShard(sweep)
    const jobs = await stage.open(shortLock)
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls).toEqual([`shard ${sweep} 0`, `merge ${sweep}`])
    expect(stage.log.map((entry) => entry.event)).toContain('job-stalled')
  })

  it('gives up a shard whose workers die too often, reports it once, and still merges', async () => {
    const sweep = newId()
    await stage.dieInShard(sweep)
    const jobs = await stage.open({ ...shortLock, maxStalls: 0 })
    const made = recorder()
    await jobs.work(made.handlers, { shards: 1 })
    await made.until(() => made.count(`merge ${sweep}`) === 1)
    expect(made.calls).toEqual([
      `failed run-shard ${sweep} 0 its worker died or stopped answering 1 times`,
      `merge ${sweep}`,
    ])
  })
}
