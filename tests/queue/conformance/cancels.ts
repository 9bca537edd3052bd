// Cancelling a sweep: on every worker, whether its job waits, runs, or runs and does not listen.
import { expect, it } from 'vitest'
import { newId, recorder, untilAborted } from './recorder.js'
import type { Stage } from './stage.js'

export function cancels(stage: Stage): void {
  it('cancels: aborts what runs in another process, removes what waits, reports nothing', async () => {
    const asker = await stage.open()
    const worker = await stage.open()
    const sweep = newId()
    const other = newId()
    let aborted: unknown = null
    const made = recorder({
      runShard: (id, _, __, signal) =>
        id === other
          ? Promise.resolve()
          : untilAborted(signal).catch((reason) => {
              aborted = reason
              throw new Error('stopped')
            }),
    })
    await worker.work(made.handlers, { shards: 1 })
    await asker.enqueueShards(sweep, [0, 1, 2, 3])
    await made.until(() => made.count(`shard ${sweep} 0`) === 1)
    await asker.cancelSweep(sweep)
    await made.until(() => aborted !== null)
    expect(aborted).toBe('cancelled')

    await asker.enqueueShards(other, [0])
    await made.until(() => made.count(`merge ${other}`) === 1)
    expect(made.calls).toEqual([`shard ${sweep} 0`, `shard ${other} 0`, `merge ${other}`])
    for (const index of [0, 1, 2, 3]) {
      expect(await asker.isLive({ kind: 'run-shard', sweepId: sweep, index })).toBe(false)
    }
    expect(await asker.isLive({ kind: 'merge-sweep', sweepId: sweep })).toBe(false)
  })

  it('cancels a handler that does not listen', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const made = recorder({ planSweep: () => new Promise(() => undefined) })
    await jobs.work(made.handlers, { shards: 1 })
    await jobs.enqueuePlan(sweep)
    await made.until(() => made.calls.length === 1)
    await jobs.cancelSweep(sweep)
    await made.until(async () => !(await jobs.isLive({ kind: 'plan-sweep', sweepId: sweep })))
    expect(made.calls).toEqual([`plan ${sweep}`])
  })
}
