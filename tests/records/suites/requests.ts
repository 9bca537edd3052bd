// Requests: accepted once a key, listed in pages, cancelled once.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { accept, answer, newRequest, planned } from '../samples.js'

const uuid4 = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/
const utc = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/

export function requestsSuite(records: () => OpenRecords): void {
  describe('accepting a request', () => {
    it('writes request and sweep together and gives them back', async () => {
      const request = await accept(records(), { title: 'Größe 70', address: null })
      expect(request).toMatchObject({
        title: 'Größe 70',
        address: null,
        state: 'accepted',
        cause: null,
        finishedAt: null,
      })
      expect(request.id).toMatch(uuid4)
      expect(request.createdAt).toMatch(utc)
      expect(await records().getRequest(request.id)).toEqual(request)
      expect(await records().getSweep(request.sweepId)).toMatchObject({
        requestId: request.id,
        state: 'accepted',
        shardCount: null,
        progress: 0,
        modelVersion: '1',
      })
    })

    it('makes one request of fifty simultaneous posts with one key', async () => {
      const post = () => records().acceptRequest(newRequest({ idempotencyKey: 'key-50' }))
      const accepted = await Promise.all(Array.from({ length: 50 }, post))
      const ids = accepted.map((each) => (each.outcome === 'mismatch' ? 'mismatch' : each.request.id))
      expect(new Set(ids).size).toBe(1)
      expect(accepted.filter((each) => each.outcome === 'new')).toHaveLength(1)
      expect(accepted.filter((each) => each.outcome === 'repeated')).toHaveLength(49)
      const { rows } = await records().pool.query(
        'select count(*)::int as n from ductwright.sweeps where request_id = $1',
        [ids[0]],
      )
      expect(rows).toEqual([{ n: 1 }])
    })

    it('answers the same key with another body as a mismatch, also when both arrive at once', async () => {
      const post = (body: string) => records().acceptRequest(newRequest({ idempotencyKey: 'key-two', body }))
      const outcomes = (await Promise.all([post('{"a":1}'), post('{"a":2}')])).map((each) => each.outcome)
      expect(outcomes.sort()).toEqual(['mismatch', 'new'])
    })

    it('takes every post without a key as a new request', async () => {
      const [first, second] = await Promise.all([accept(records()), accept(records())])
      expect(first.id).not.toBe(second.id)
    })

    it('refuses a catalogue version that is not kept, and leaves nothing behind', async () => {
      const request = newRequest({ catalogueVersion: 'unheard of', idempotencyKey: 'key-unheard' })
      await expect(records().acceptRequest(request)).rejects.toThrow(/catalogueVersion: unheard of is not kept here/)
      const again = await records().acceptRequest(newRequest({ idempotencyKey: 'key-unheard' }))
      expect(again.outcome).toBe('new')
    })

    it('keeps a body byte for byte, refuses NUL in it, and replaces NUL in a title', async () => {
      const body = '{"b":"\\u0000 ½","a":[1e999,"\u202e"]}'
      const request = await accept(records(), { body, title: 'a\0b' })
      expect(request.body).toBe(body)
      expect(request.title).toBe('a\uFFFDb')
      await expect(records().acceptRequest(newRequest({ body: 'a\0b' }))).rejects.toThrow(/body: must not contain/)
    })

    it('knows nothing of an id that is not one', async () => {
      for (const id of ['', 'x', '\0', "' or 1=1 --", '00000000-0000-4000-8000-000000000000']) {
        expect(await records().getRequest(id)).toBeNull()
        expect(await records().getSweep(id)).toBeNull()
        expect(await records().getAnswer(id)).toBeNull()
        expect(await records().mailsOf(id)).toEqual([])
        expect(await records().cancelRequest(id)).toBe(false)
      }
    })
  })

  describe('listing requests', () => {
    it('pages newest first, without a gap or a repeat while new ones arrive', async () => {
      const mine: string[] = []
      for (let n = 0; n < 25; n++) mine.unshift((await accept(records(), { title: `list ${n}` })).id)
      const seen: string[] = []
      let after: string | null = null
      do {
        const page: Awaited<ReturnType<OpenRecords['listRequests']>> = await records().listRequests({ limit: 4, after })
        expect(page.rows.length).toBeLessThanOrEqual(4)
        seen.push(...page.rows.map((row) => row.id))
        after = page.next
        await accept(records(), { title: 'arrived meanwhile' })
      } while (after !== null && seen.length < 40)
      expect(seen.filter((id) => mine.includes(id))).toEqual(mine)
      expect(new Set(seen).size).toBe(seen.length)
    })

    it('orders requests of the same millisecond by id, and pages through them', async () => {
      const same = await Promise.all(Array.from({ length: 6 }, () => accept(records(), { title: 'same time' })))
      const time = '2031-01-01T00:00:00.000Z'
      for (const { id } of same) {
        await records().pool.query('update ductwright.requests set created_at = $1 where id = $2', [time, id])
      }
      const first = await records().listRequests({ limit: 3, after: null })
      const second = await records().listRequests({ limit: 3, after: first.next })
      const ids = [...first.rows, ...second.rows].map((row) => row.id)
      expect(ids).toEqual(
        same
          .map((row) => row.id)
          .sort()
          .reverse(),
      )
      for (const { id } of same) {
        await records().pool.query("update ductwright.requests set created_at = '2001-01-01Z' where id = $1", [id])
      }
    })

    it('ends with next null, and refuses a cursor that is not its own', async () => {
      const all = await records().listRequests({ limit: 10_000, after: null })
      expect(all.next).toBeNull()
      for (const after of ['', 'x', Buffer.from('2031-13-45T00:00:00.000Z x').toString('base64url')]) {
        await expect(records().listRequests({ limit: 1, after })).rejects.toThrow(/after: must be the `next`/)
      }
      await expect(records().listRequests({ limit: 0, after: null })).rejects.toThrow(/limit: must be a whole number/)
    })
  })

  describe('cancelling a request', () => {
    it('ends request and sweep once, before and after planning', async () => {
      for (const request of [await accept(records()), await planned(records())]) {
        expect(await records().cancelRequest(request.id)).toBe(true)
        expect(await records().cancelRequest(request.id)).toBe(false)
        const row = await records().getRequest(request.id)
        expect(row).toMatchObject({ state: 'cancelled', cause: null })
        expect(row?.finishedAt).toMatch(utc)
        expect(await records().getSweep(request.sweepId)).toMatchObject({ state: 'cancelled' })
      }
    })

    it('does not undo an answer', async () => {
      const request = await planned(records())
      await records().finishSweep(request.sweepId, answer, null, { requireConfirmed: false })
      expect(await records().cancelRequest(request.id)).toBe(false)
      expect(await records().getRequest(request.id)).toMatchObject({ state: 'answered' })
    })

    it('lets one of answer, failure and cancellation win when they arrive together', async () => {
      for (let round = 0; round < 10; round++) {
        const request = await planned(records(), [1])
        const [answered, failed, cancelled] = await Promise.all([
          records().finishSweep(request.sweepId, answer, null, { requireConfirmed: false }),
          records().failSweep(request.sweepId, 'a fault'),
          records().cancelRequest(request.id),
        ])
        expect([answered, failed, cancelled].filter(Boolean)).toHaveLength(1)
        const state = answered ? 'answered' : failed ? 'failed' : 'cancelled'
        expect(await records().getRequest(request.id)).toMatchObject({ state })
        expect(await records().getSweep(request.sweepId)).toMatchObject({ state })
        expect((await records().getAnswer(request.id)) !== null).toBe(answered)
      }
    })
  })
}
