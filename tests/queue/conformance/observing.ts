// What can be asked about jobs: whether a row has one, and how much there is.
import { setTimeout as wait } from 'node:timers/promises'
import type { Jobs } from '@ductwright/queue/jobs'
import { expect, it } from 'vitest'
import { newId, recorder } from './recorder.js'
import type { Stage } from './stage.js'

export function observing(stage: Stage, kind: Jobs['kind']): void {
  it('says where it keeps them', async () => {
    expect((await stage.open()).kind).toBe(kind)
  })

  it('knows which rows have a live job', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const mail = newId()
    const plan = { kind: 'plan-sweep', sweepId: sweep } as const
    const shard = { kind: 'run-shard', sweepId: sweep, index: 0 } as const
    const merge = { kind: 'merge-sweep', sweepId: sweep } as const
    const letter = { kind: 'send-mail', mailId: mail } as const
    const live = async (): Promise<boolean[]> =>
      Promise.all([plan, shard, merge, letter].map((row) => jobs.isLive(row)))

    expect(await live()).toEqual([false, false, false, false])
    await jobs.enqueuePlan(sweep)
    await jobs.enqueueShards(sweep, [0])
    expect(await live(), 'waiting').toEqual([true, true, true, false])
    await jobs.enqueueMail(mail, 60_000)
    expect(await live(), 'delayed').toEqual([true, true, true, true])
    expect(await jobs.isLive({ kind: 'run-shard', sweepId: sweep, index: 1 }), 'another index').toBe(false)

    let finish = (): void => undefined
    const made = recorder({ runShard: () => new Promise((resolve) => (finish = resolve)) })
    await jobs.work(made.handlers, { shards: 1 })
    await made.until(async () => made.calls.length === 2 && !(await jobs.isLive(plan)))
    expect(await live(), 'running').toEqual([false, true, true, true])
    finish()
    await made.until(async () => !(await jobs.isLive(merge)))
    expect(await live(), 'finished').toEqual([false, false, false, true])
  })

  it('tells how much waits and runs, and for how long', async () => {
    const jobs = await stage.open()
    const sweep = newId()
    const before = await jobs.load()
    await jobs.enqueueShards(sweep, [0])
    await wait(400)
    await jobs.enqueueShards(newId(), [0])
    const full = await jobs.load()
    expect(full.waiting - before.waiting).toBe(2)
    expect(full.active).toBe(0)
    expect(full.oldestSeconds).toBeGreaterThanOrEqual(0.39)

    let finish = (): void => undefined
    const made = recorder({ runShard: () => new Promise((resolve) => (finish = resolve)) })
    await jobs.work(made.handlers, { shards: 1 })
    await made.until(async () => (await jobs.load()).active === 1)
    expect((await jobs.load()).waiting - before.waiting).toBe(1)
    finish()
    await made.until(() => made.calls.length === 3)
    finish()
    await made.until(() => made.calls.length === 4)
    await made.until(async () => (await jobs.load()).oldestSeconds === null)
  })
}
