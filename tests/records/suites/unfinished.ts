// The list for the reconciler: each stage of a sweep appears in it exactly while nobody works on it.

import type { OpenRecords } from '@ductwright/records/open-records'
import { expect, it } from 'vitest'
import { accept, answer, leased, newMail, until } from '../samples.js'

export function unfinishedSuite(records: () => OpenRecords): void {
  it('follows one request through all its stages', async () => {
    const { id, sweepId } = await accept(records())
    const of = async () => {
      const all = await records().unfinished()
      const mails = (await records().mailsOf(id)).map((mail) => mail.id)
      return {
        unplanned: all.unplanned.filter((each) => each === sweepId).length,
        shards: all.shards.filter((each) => each.sweepId === sweepId).map((each) => each.index),
        unmerged: all.unmerged.filter((each) => each === sweepId).length,
        mails: all.mails.filter((each) => mails.includes(each)).length,
      }
    }
    const nothing = { unplanned: 0, shards: [], unmerged: 0, mails: 0 }
    expect(await of()).toEqual({ ...nothing, unplanned: 1 })
    await records().planSweep(sweepId, [
      { range: 'a', work: 1 },
      { range: 'b', work: 1 },
    ])
    expect(await of()).toEqual({ ...nothing, shards: [0, 1] })
    const first = await leased(records(), sweepId, 0)
    await leased(records(), sweepId, 1, 1)
    await until(async () => (await of()).shards.length === 1)
    expect(await of()).toEqual({ ...nothing, shards: [1] })
    await records().finishShard(first, 'front')
    await records().finishShard(await leased(records(), sweepId, 1), 'front')
    expect(await of()).toEqual({ ...nothing, unmerged: 1 })
    await records().finishSweep(sweepId, answer, newMail(), { requireConfirmed: false })
    expect(await of()).toEqual({ ...nothing, mails: 1 })
  })

  it('lists a sweep without any shard as ready to merge, and nothing of an ended one', async () => {
    const request = await accept(records())
    await records().planSweep(request.sweepId, [])
    expect((await records().unfinished()).unmerged).toContain(request.sweepId)
    await records().failSweep(request.sweepId, 'nothing to sweep')
    const after = await records().unfinished()
    expect(after.unmerged).not.toContain(request.sweepId)
    expect(after.unplanned).not.toContain(request.sweepId)
  })

  it('answers a ping', async () => {
    await expect(records().ping()).resolves.toBeUndefined()
  })
}
