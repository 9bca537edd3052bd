// Shards: one holder at a time, higher tokens, late writes refused, damage found.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { answer, leased, leaseMs, planned, until } from '../samples.js'

export function shardsSuite(records: () => OpenRecords): void {
  const takeOver = async (sweepId: string, index: number) => {
    const late = await leased(records(), sweepId, index, 1)
    await until(async () => (await records().unfinished()).shards.some((shard) => shard.sweepId === sweepId))
    return { late, next: await leased(records(), sweepId, index) }
  }

  describe('leasing a shard', () => {
    it('gives it to one of many who ask at once', async () => {
      const { sweepId } = await planned(records(), [1])
      const leases = await Promise.all(Array.from({ length: 20 }, () => records().leaseShard(sweepId, 0, leaseMs)))
      expect(leases.filter((lease) => lease !== null)).toHaveLength(1)
      expect(leases.find((lease) => lease !== null)).toMatchObject({ token: 1, starts: 1, range: '{"from":0}' })
    })

    it('gives nothing for an unknown sweep or index, an unplanned, done or ended one', async () => {
      const { sweepId, id } = await planned(records(), [1, 1])
      expect(await records().leaseShard('nonsense', 0, leaseMs)).toBeNull()
      expect(await records().leaseShard(sweepId, 7, leaseMs)).toBeNull()
      await records().finishShard(await leased(records(), sweepId, 0), 'front')
      expect(await records().leaseShard(sweepId, 0, leaseMs)).toBeNull()
      await records().cancelRequest(id)
      expect(await records().leaseShard(sweepId, 1, leaseMs)).toBeNull()
      await expect(records().leaseShard((await planned(records())).sweepId, 0, 0)).rejects.toThrow(/leaseMs: must be/)
    })

    it('passes it on when the lease has run out, with a higher token and one more start', async () => {
      const { sweepId } = await planned(records(), [1])
      const { late, next } = await takeOver(sweepId, 0)
      expect(next.token).toBeGreaterThan(late.token)
      expect(next.starts).toBe(2)
    })

    it('passes it on when it was given back, and keeps the reason', async () => {
      const { sweepId } = await planned(records(), [1])
      const first = await leased(records(), sweepId, 0)
      await records().releaseShard(first, 'killed\0')
      const { rows } = await records().pool.query('select last_fault from ductwright.shards where sweep_id = $1', [
        sweepId,
      ])
      expect(rows).toEqual([{ last_fault: 'killed\uFFFD' }])
      const next = await leased(records(), sweepId, 0)
      expect(next).toMatchObject({ token: first.token + 1, starts: 2 })
      await records().releaseShard(first, 'stale')
      expect(await records().leaseShard(sweepId, 0, leaseMs)).toBeNull()
    })
  })

  describe('writing to a shard', () => {
    it('refuses the late holder after a takeover, whatever it tries, and takes the new one', async () => {
      const { sweepId } = await planned(records(), [1])
      const { late, next } = await takeOver(sweepId, 0)
      expect(await records().renewShard(late, 0.9, leaseMs)).toBe(false)
      expect(await records().finishShard(late, 'late front')).toBe(false)
      expect(await records().finishShard(next, 'good front')).toBe(true)
      expect(await records().finishShard(late, 'late front')).toBe(false)
      expect(await records().shardFronts(sweepId)).toEqual({ fronts: ['good front'], missing: [] })
    })

    it('lets a holder go on whose lease ran out without a successor', async () => {
      const { sweepId } = await planned(records(), [1])
      const slow = await leased(records(), sweepId, 0, 1)
      await until(async () => (await records().unfinished()).shards.some((shard) => shard.sweepId === sweepId))
      expect(await records().renewShard(slow, 0.5, leaseMs)).toBe(true)
      expect(await records().leaseShard(sweepId, 0, leaseMs)).toBeNull()
      expect(await records().finishShard(slow, 'front')).toBe(true)
    })

    it('accepts the same front again from its holder, and no other', async () => {
      const { sweepId } = await planned(records(), [1])
      const lease = await leased(records(), sweepId, 0)
      expect(await records().finishShard(lease, 'front')).toBe(true)
      expect(await records().finishShard(lease, 'front')).toBe(true)
      expect(await records().finishShard(lease, 'another')).toBe(false)
      expect(await records().renewShard(lease, 1, leaseMs)).toBe(false)
    })

    it('never moves progress backwards within a lease, and clamps it', async () => {
      const { sweepId } = await planned(records(), [1])
      const lease = await leased(records(), sweepId, 0)
      await records().renewShard(lease, 0.5, leaseMs)
      await records().renewShard(lease, 0.2, leaseMs)
      expect((await records().getSweep(sweepId))?.progress).toBe(0.5)
      for (const wild of [7, Number.NaN, -1]) expect(await records().renewShard(lease, wild, leaseMs)).toBe(true)
      expect((await records().getSweep(sweepId))?.progress).toBe(1)
    })

    it('refuses every write after a cancellation, a failure or an answer', async () => {
      // Shards of what is answered are gone.
      const answers = 2
      const ends = [
        (request: { id: string; sweepId: string }) => records().cancelRequest(request.id),
        (request: { id: string; sweepId: string }) => records().failSweep(request.sweepId, 'cause'),
        (request: { id: string; sweepId: string }) =>
          records().finishSweep(request.sweepId, answer, null, { requireConfirmed: false }),
      ]
      for (const [i, end] of ends.entries()) {
        const request = await planned(records(), [1])
        const lease = await leased(records(), request.sweepId, 0)
        await end(request)
        expect(await records().renewShard(lease, 0.5, leaseMs)).toBe(false)
        expect(await records().finishShard(lease, 'front')).toBe(false)
        expect(await records().shardFronts(request.sweepId)).toEqual({ fronts: [], missing: answers === i ? [] : [0] })
      }
    })

    it('refuses NUL in a front', async () => {
      const { sweepId } = await planned(records(), [1])
      const lease = await leased(records(), sweepId, 0)
      await expect(records().finishShard(lease, 'a\0b')).rejects.toThrow(/front: must not contain/)
    })
  })

  describe('reading the fronts', () => {
    it('gives them in the order of the shards and names the missing ones', async () => {
      const { sweepId } = await planned(records(), [1, 1, 1])
      await records().finishShard(await leased(records(), sweepId, 2), 'third')
      await records().finishShard(await leased(records(), sweepId, 0), 'first ½')
      expect(await records().shardFronts(sweepId)).toEqual({ fronts: ['first ½', 'third'], missing: [1] })
    })

    it('finds a changed front by its checksum, reopens the shard and takes its new front', async () => {
      const { sweepId } = await planned(records(), [1, 1])
      const first = await leased(records(), sweepId, 0)
      await records().finishShard(first, 'front 0')
      await records().finishShard(await leased(records(), sweepId, 1), 'front 1')
      await records().pool.query("update ductwright.shards set front = 'front O' where sweep_id = $1 and index = 0", [
        sweepId,
      ])
      expect(await records().shardFronts(sweepId)).toEqual({ fronts: ['front 1'], missing: [0] })
      expect((await records().getSweep(sweepId))?.progress).toBe(0.5)
      expect((await records().unfinished()).shards).toContainEqual({ sweepId, index: 0 })
      expect(await records().finishShard(first, 'front 0')).toBe(false)
      const again = await leased(records(), sweepId, 0)
      expect(again.token).toBeGreaterThan(first.token + 1)
      await records().finishShard(again, 'front 0')
      expect(await records().shardFronts(sweepId)).toEqual({ fronts: ['front 0', 'front 1'], missing: [] })
    })

    it('refuses a sweep that is unknown', async () => {
      await expect(records().shardFronts('nonsense')).rejects.toThrow(/sweep nonsense: is not kept here/)
    })
  })
}
