// Batches: accepted whole and once, ended once when every item has ended.

import type { NewBatch } from '@ductwright/records/batch-records'
import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { answer, newMail, newRequest } from '../samples.js'

const open = { requireConfirmed: false }

function newBatch(count: number, changes: Partial<NewBatch> = {}): NewBatch {
  const items = Array.from({ length: count }, (_, n) => {
    const { idempotencyKey: _key, ...item } = newRequest({ title: `Item ${n}`, address: null, body: `{"n":${n}}` })
    return item
  })
  return { title: 'All of them', address: 'pilot@example.org', bodyHash: 'b', idempotencyKey: null, items, ...changes }
}

export function batchesSuite(records: () => OpenRecords): void {
  const accept = async (batch: NewBatch) => {
    const accepted = await records().acceptBatch(batch)
    if (accepted.outcome !== 'new') throw new Error(`expected a new batch, got ${accepted.outcome}`)
    return accepted
  }

  describe('a batch', () => {
    it('becomes one request and one sweep an item, in order', async () => {
      const { batch, sweepIds } = await accept(newBatch(600))
      expect(batch).toMatchObject({ state: 'running', itemCount: 600, endedCount: 0, summary: null })
      expect(new Set(sweepIds).size).toBe(600)
      const items = await records().batchItems(batch.id)
      expect(items.map((item) => item.title)).toEqual(Array.from({ length: 600 }, (_, n) => `Item ${n}`))
      expect(await records().getRequest(items[7]?.requestId ?? '')).toMatchObject({
        address: null,
        standing: null,
        batch: { id: batch.id, index: 7 },
      })
      expect((await records().unfinished()).unplanned).toEqual(expect.arrayContaining([sweepIds[0], sweepIds[599]]))
      expect(await records().eraseBatch(batch.id)).toBe(true)
      expect(await records().batchItems(batch.id)).toEqual([])
    })

    it('is accepted once for a key', async () => {
      const batch = newBatch(2, { idempotencyKey: 'batch key' })
      const posts = await Promise.all(Array.from({ length: 10 }, () => records().acceptBatch(batch)))
      expect(posts.filter((post) => post.outcome === 'new')).toHaveLength(1)
      expect(await records().acceptBatch({ ...batch, bodyHash: 'other' })).toEqual({ outcome: 'mismatch' })
    })

    it('leaves nothing behind when an item names a catalogue that is not kept', async () => {
      const [item] = newBatch(1).items
      const batch = newBatch(1, { items: [{ ...(item ?? expect.unreachable()), catalogueVersion: 'none' }] })
      await expect(records().acceptBatch(batch)).rejects.toThrow(/catalogueVersion/)
    })

    it('ends once, with its summary and one mail, when every item has ended', async () => {
      const { batch, sweepIds } = await accept(newBatch(3))
      const isListed = async () => (await records().unfinished()).batches.includes(batch.id)
      for (const [index, sweepId] of sweepIds.entries()) {
        expect(await isListed()).toBe(false)
        await records().planSweep(sweepId, [])
        const item = { ...answer, summary: `{"n":${index}}` }
        if (index === 1) await records().failSweep(sweepId, 'too hard')
        else await records().finishSweep(sweepId, item, null, open)
      }
      expect(await isListed()).toBe(true)
      expect(await records().getBatch(batch.id)).toMatchObject({ endedCount: 3, state: 'running' })
      expect(await records().batchItems(batch.id)).toMatchObject([
        { state: 'answered', summary: '{"n":0}' },
        { state: 'failed', cause: 'too hard', summary: null },
        { state: 'answered', summary: '{"n":2}' },
      ])
      const ends = Array.from({ length: 5 }, () => records().finishBatch(batch.id, '{"all":1}', newMail(), open))
      expect((await Promise.all(ends)).filter(Boolean)).toHaveLength(1)
      expect(await isListed()).toBe(false)
      expect(await records().getBatch(batch.id)).toMatchObject({ state: 'ended', summary: '{"all":1}' })
      expect(await records().mailOfBatch(batch.id)).toMatchObject({ kind: 'batch', requestId: null, batchId: batch.id })
    })
  })
}
