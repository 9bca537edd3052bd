// Standing requests: accepted once, revised against the revision in force, paused, resumed, listed, deleted.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { answerRun, catalogueVersion, newStanding, run, stand } from '../samples.js'

const version = { catalogue: catalogueVersion, model: '1' }

export function standingSuite(records: () => OpenRecords): void {
  describe('a standing request', () => {
    it('is accepted once for a key, and refused when the key comes with another body', async () => {
      const request = newStanding({ idempotencyKey: 'standing key' })
      const posts = await Promise.all(Array.from({ length: 20 }, () => records().acceptStanding(request)))
      const outcomes = posts.map((post) => post.outcome)
      expect(outcomes.filter((outcome) => outcome === 'new')).toHaveLength(1)
      expect(new Set(posts.map((post) => ('standing' in post ? post.standing.id : ''))).size).toBe(1)
      expect(await records().acceptStanding({ ...request, bodyHash: 'other' })).toEqual({ outcome: 'mismatch' })
    })

    it('begins active in its first revision, having told nothing', async () => {
      const row = await stand(records(), { everyDays: 7 })
      expect(row).toMatchObject({
        state: 'active',
        revision: 1,
        everyDays: 7,
        settled: null,
        runId: null,
        toldHash: null,
      })
      expect(await records().getStanding(row.id)).toEqual(row)
      expect(await records().getStanding('nonsense')).toBeNull()
    })

    it('takes a new revision only over the one its owner has seen', async () => {
      const row = await stand(records())
      const next = newStanding()
      const revised = await records().reviseStanding(row.id, 1, next)
      expect(revised).toMatchObject({ outcome: 'revised', standing: { revision: 2, body: next.body } })
      expect(await records().reviseStanding(row.id, 1, newStanding())).toMatchObject({ outcome: 'stale' })
      expect(await records().reviseStanding(row.id, null, newStanding())).toMatchObject({ standing: { revision: 3 } })
      expect(await records().reviseStanding('nonsense', null, next)).toEqual({ outcome: 'gone' })
    })

    it('rests while it is paused, and is asked again when it is resumed', async () => {
      const { id } = await stand(records())
      await answerRun(records(), (await run(records(), id, version)) ?? expect.unreachable(), 'h1')
      expect(await records().setStandingState(id, 'paused')).toMatchObject({ state: 'paused' })
      expect(await records().restlessStanding({ ...version, model: '2' })).not.toContain(id)
      expect(await run(records(), id, { ...version, model: '2' })).toBeNull()
      expect(await records().setStandingState(id, 'active')).toMatchObject({ state: 'active' })
      expect(await records().restlessStanding(version)).toContain(id)
      expect(await run(records(), id, version)).toMatchObject({ standing: { id, reason: 'resumed' } })
      expect(await records().setStandingState('nonsense', 'paused')).toBeNull()
    })

    it('is listed newest first, page by page', async () => {
      const ids: string[] = []
      for (let n = 0; n < 3; n++) ids.unshift((await stand(records())).id)
      const first = await records().listStanding({ limit: 2, after: null })
      expect(first.rows.map((row) => row.id)).toEqual(ids.slice(0, 2))
      const second = await records().listStanding({ limit: 2, after: first.next })
      expect(second.rows[0]?.id).toBe(ids[2])
      await expect(records().listStanding({ limit: 0, after: null })).rejects.toThrow(/limit/)
    })
  })
}
