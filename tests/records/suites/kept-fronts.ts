// What is kept for the next run of a standing request: with the answer or not at all, one of each, and nothing that is
// damaged or whose request is gone.

import { randomBytes } from 'node:crypto'
import type { OpenRecords } from '@ductwright/records/open-records'
import type { NewKept } from '@ductwright/records/standing-records'
import { describe, expect, it } from 'vitest'
import { answer, catalogueVersion, planned, run, stand } from '../samples.js'

const at = (model: string) => ({ catalogue: catalogueVersion, model })

export function keptFrontsSuite(records: () => OpenRecords): void {
  /** A new run on the version, ended with something kept; whether it was the end. */
  async function answered(id: string, model: string, kept: NewKept): Promise<boolean> {
    const started = (await run(records(), id, at(model))) ?? expect.unreachable()
    return records().finishSweep(started.sweepId, { ...answer, kept }, null, { requireConfirmed: false, told: null })
  }

  describe('a kept front', () => {
    it('comes back byte for byte with the version it is of, and a later one takes its place', async () => {
      const { id } = await stand(records())
      expect(await records().keptFront(id)).toBeNull()
      const first = { question: 'q', front: randomBytes(100_000), notes: 'Größe' }
      expect(await answered(id, '1', first)).toBe(true)
      const { front, ...rest } = (await records().keptFront(id)) ?? expect.unreachable()
      expect(Buffer.compare(front, first.front)).toBe(0)
      expect(rest).toEqual({ question: 'q', version: at('1'), notes: 'Größe' })
      const second = { question: 'another', front: Uint8Array.of(0, 255, 0), notes: '' }
      await answered(id, '2', second)
      expect(await records().keptFront(id)).toEqual({ ...second, version: at('2') })
    })

    it('stays when a run took it over, with the notes of that run', async () => {
      const { id } = await stand(records())
      await answered(id, '1', { question: 'q', front: Buffer.of(1), notes: 'first' })
      await answered(id, '2', { question: 'q', front: null, notes: 'second' })
      expect(await records().keptFront(id)).toEqual({
        question: 'q',
        front: Uint8Array.of(1),
        notes: 'second',
        version: at('1'),
      })
      await answered(id, '3', { question: 'another', front: null, notes: 'third' })
      expect(await records().keptFront(id)).toMatchObject({ notes: 'second' })
    })

    it('is none when it is damaged', async () => {
      const { id } = await stand(records())
      await answered(id, '1', { question: 'q', front: Buffer.of(1, 2, 3), notes: '' })
      await records().pool.query("update ductwright.kept_fronts set front = '\\x010204' where standing_id = $1", [id])
      expect(await records().keptFront(id)).toBeNull()
    })

    it('is not written when the run had ended before, nor for a request that does not stand', async () => {
      const { id } = await stand(records())
      const started = (await run(records(), id, at('1'))) ?? expect.unreachable()
      await records().cancelRequest(started.id)
      const kept = { question: 'q', front: Buffer.of(1), notes: '' }
      const options = { requireConfirmed: false, told: null }
      expect(await records().finishSweep(started.sweepId, { ...answer, kept }, null, options)).toBe(false)
      expect(await records().keptFront(id)).toBeNull()
      const before = await count()
      const { sweepId } = await planned(records(), [1])
      expect(await records().finishSweep(sweepId, { ...answer, kept }, null, { requireConfirmed: false })).toBe(true)
      expect(await count()).toEqual(before)
    })

    it('goes with its standing request', async () => {
      const { id } = await stand(records())
      await answered(id, '1', { question: 'q', front: Buffer.of(1), notes: '' })
      expect(await records().deleteStanding(id)).toBe(true)
      const rows = await records().pool.query('select 1 from ductwright.kept_fronts where standing_id = $1', [id])
      expect(rows.rows).toEqual([])
      for (const unknown of [id, 'no id', '']) expect(await records().keptFront(unknown)).toBeNull()
    })
  })

  async function count(): Promise<unknown> {
    return (await records().pool.query('select count(*)::int as rows from ductwright.kept_fronts')).rows
  }
}
