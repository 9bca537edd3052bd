// Sweeps: planned once, finished once, with the answer and its mail in one transaction.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { accept, answer, hash, leased, leaseMs, newMail, planned } from '../samples.js'

const open = { requireConfirmed: false }

export function sweepsSuite(records: () => OpenRecords): void {
  describe('planning a sweep', () => {
    it('stores the ranges once: a second plan changes nothing', async () => {
      const request = await accept(records())
      const first = await records().planSweep(request.sweepId, [
        { range: 'a', work: 1 },
        { range: 'b', work: 3 },
      ])
      expect(first).toMatchObject({ state: 'sweeping', shardCount: 2, progress: 0 })
      expect(await records().planSweep(request.sweepId, [{ range: 'c', work: 9 }])).toEqual(first)
      expect((await leased(records(), request.sweepId, 1)).range).toBe('b')
      expect(await records().getRequest(request.id)).toMatchObject({ state: 'running' })
    })

    it('lets one of two simultaneous plans win whole', async () => {
      const request = await accept(records())
      const plan = (range: string, count: number) =>
        records().planSweep(
          request.sweepId,
          Array.from({ length: count }, () => ({ range, work: 1 })),
        )
      const [one, two] = await Promise.all([plan('one', 3), plan('two', 5)])
      expect(one).toEqual(two)
      const count = one.shardCount ?? 0
      const ranges = []
      for (let index = 0; index < count; index++) ranges.push((await leased(records(), request.sweepId, index)).range)
      expect(ranges).toEqual(Array(count).fill(count === 3 ? 'one' : 'two'))
    })

    it('takes thousands of shards, and none at all', async () => {
      const many = await accept(records())
      const ranges = Array.from({ length: 2_500 }, (_, index) => ({ range: `${index}`, work: 1 }))
      expect(await records().planSweep(many.sweepId, ranges)).toMatchObject({ shardCount: 2_500 })
      expect((await leased(records(), many.sweepId, 2_499)).range).toBe('2499')
      const none = await accept(records())
      expect(await records().planSweep(none.sweepId, [])).toMatchObject({ shardCount: 0, state: 'sweeping' })
      expect(await records().shardFronts(none.sweepId)).toEqual({ fronts: [], missing: [] })
      await records().cancelRequest(many.id)
      await records().cancelRequest(none.id)
    })

    it('leaves an ended sweep as it is, and refuses an unknown one', async () => {
      const request = await accept(records())
      await records().cancelRequest(request.id)
      const row = await records().planSweep(request.sweepId, [{ range: 'a', work: 1 }])
      expect(row).toMatchObject({ state: 'cancelled', shardCount: null })
      await expect(records().planSweep('nonsense', [])).rejects.toThrow(/sweep nonsense: is not kept here/)
      const other = await accept(records())
      const plan = records().planSweep(other.sweepId, [{ range: 'a', work: Number.NaN }])
      await expect(plan).rejects.toThrow(/work: must be a finite number from 0/)
    })

    it('weighs progress by the work of the shards', async () => {
      const { sweepId } = await planned(records(), [1, 3])
      const small = await leased(records(), sweepId, 0)
      const large = await leased(records(), sweepId, 1)
      await records().finishShard(small, 'front')
      expect((await records().getSweep(sweepId))?.progress).toBeCloseTo(0.25, 12)
      await records().renewShard(large, 0.5, leaseMs)
      expect((await records().getSweep(sweepId))?.progress).toBeCloseTo(0.625, 12)
      await records().finishShard(large, 'front')
      expect((await records().getSweep(sweepId))?.progress).toBe(1)
    })
  })

  describe('finishing a sweep', () => {
    it('writes answer, ends and mail together', async () => {
      const request = await planned(records(), [1])
      const mail = newMail()
      expect(await records().finishSweep(request.sweepId, answer, mail, open)).toBe(true)
      expect(await records().getAnswer(request.id)).toEqual(answer)
      expect(await records().getRequest(request.id)).toMatchObject({ state: 'answered', cause: null })
      expect(await records().getSweep(request.sweepId)).toMatchObject({ state: 'answered', progress: 1 })
      expect(await records().mailsOf(request.id)).toMatchObject([
        {
          id: mail.id,
          requestId: request.id,
          kind: 'answer',
          state: 'pending',
          attempts: 0,
          messageId: mail.messageId,
        },
      ])
    })

    it('happens once when repeated or raced: one answer, one mail', async () => {
      const request = await planned(records(), [1])
      const finish = (n: number) =>
        records().finishSweep(request.sweepId, { ...answer, result: `{"n":${n}}` }, newMail(), open)
      const outcomes = await Promise.all(Array.from({ length: 10 }, (_, n) => finish(n)))
      expect(outcomes.filter(Boolean)).toHaveLength(1)
      expect(await finish(10)).toBe(false)
      expect((await records().getAnswer(request.id))?.result).toBe(`{"n":${outcomes.indexOf(true)}}`)
      expect(await records().mailsOf(request.id)).toHaveLength(1)
    })

    it('writes no mail without an address', async () => {
      const request = await planned(records(), [1])
      expect(await records().finishSweep(request.sweepId, answer, null, open)).toBe(true)
      expect(await records().mailsOf(request.id)).toEqual([])
    })

    it('leaves nothing of itself behind when one part cannot be written', async () => {
      const first = await planned(records(), [1])
      const mail = newMail()
      await records().finishSweep(first.sweepId, answer, mail, open)
      const second = await planned(records(), [1])
      await expect(records().finishSweep(second.sweepId, answer, mail, open)).rejects.toThrow(/outbox_pkey/)
      expect(await records().getAnswer(second.id)).toBeNull()
      expect(await records().getSweep(second.sweepId)).toMatchObject({ state: 'sweeping' })
      expect(await records().finishSweep(second.sweepId, answer, newMail(), open)).toBe(true)
    })

    it('keeps at most one mail for a pair of request and answer hash', async () => {
      const request = await planned(records(), [1])
      await records().finishSweep(request.sweepId, answer, newMail(), open)
      const again = records().pool.query(
        `insert into ductwright.outbox (id, request_id, kind, address, subject, message_id, mime, answer_hash, state)
         values ('second', $1, 'answer', 'a@example.org', '', '', '', $2, 'pending')`,
        [request.id, answer.answerHash],
      )
      await expect(again).rejects.toMatchObject({ code: '23505' })
    })

    it('carries a result of five megabytes unchanged', async () => {
      const request = await planned(records(), [1])
      const result = JSON.stringify({ rows: Array.from({ length: 70_000 }, (_, n) => [n, `${hash(`${n}`)} ½ €`]) })
      expect(result.length).toBeGreaterThan(5_000_000)
      await records().finishSweep(request.sweepId, { ...answer, result }, { ...newMail(), mime: result }, open)
      expect(hash((await records().getAnswer(request.id))?.result ?? '')).toBe(hash(result))
    })

    it('refuses to serve an answer whose stored bytes have changed', async () => {
      const request = await planned(records(), [1])
      await records().finishSweep(request.sweepId, answer, null, open)
      await records().pool.query("update ductwright.answers set result = result || ' ' where request_id = $1", [
        request.id,
      ])
      await expect(records().getAnswer(request.id)).rejects.toThrow(/does not match its checksum/)
    })

    it('fails a sweep once, with its cause', async () => {
      const request = await planned(records())
      expect(await records().failSweep(request.sweepId, 'shard 1 ran out of memory 3 times\0')).toBe(true)
      expect(await records().failSweep(request.sweepId, 'again')).toBe(false)
      const cause = 'shard 1 ran out of memory 3 times\uFFFD'
      expect(await records().getRequest(request.id)).toMatchObject({ state: 'failed', cause })
      expect(await records().getSweep(request.sweepId)).toMatchObject({ state: 'failed', cause })
      expect(await records().finishSweep(request.sweepId, answer, newMail(), open)).toBe(false)
      expect(await records().failSweep('nonsense', '')).toBe(false)
    })
  })
}
