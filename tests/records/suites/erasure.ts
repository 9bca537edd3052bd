// Erasure: after it no table holds the address any more, searched as text in every column of every table.

import { randomUUID } from 'node:crypto'
import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import {
  accept,
  answer,
  answerRun,
  catalogueVersion,
  hash,
  mailed,
  newMail,
  newRequest,
  planned,
  run,
  stand,
} from '../samples.js'

const version = { catalogue: catalogueVersion, model: '1' }

export function erasureSuite(records: () => OpenRecords): void {
  const freshAddress = () => `${randomUUID()}@example.org`

  /** Tables in which the text stands anywhere. */
  const holding = async (text: string): Promise<string[]> => {
    const { rows } = await records().pool.query(
      "select table_name as name from information_schema.tables where table_schema = 'ductwright' order by 1",
    )
    const found: string[] = []
    for (const { name } of rows as { name: string }[]) {
      const hit = await records().pool.query(
        `select 1 from ductwright.${name} row where strpos(row::text, $1) > 0 limit 1`,
        [text],
      )
      if (hit.rows.length > 0) found.push(name)
    }
    return found
  }

  const bodyWith = (address: string) => `{"address":"${address}"}`

  describe('erasing', () => {
    it('a request removes its address, question, answer, mails and consent', async () => {
      const address = freshAddress()
      const { id, sweepId } = await accept(records(), { address, body: bodyWith(address) })
      await records().inviteAddress(address, hash(address), { requestId: id }, newMail(address))
      await records().planSweep(sweepId, [])
      const mail = { ...newMail(address), mime: `To: ${address}` }
      await records().finishSweep(sweepId, { ...answer, result: bodyWith(address) }, mail, { requireConfirmed: true })
      expect(await holding(address)).toEqual(['addresses', 'answers', 'outbox', 'requests'])
      expect(await records().eraseRequest(id)).toBe(true)
      expect(await holding(address)).toEqual([])
      expect(await records().getRequest(id)).toBeNull()
      expect(await records().eraseRequest(id)).toBe(false)
      expect(await records().eraseRequest('nonsense')).toBe(false)
    })

    it('a request that is still worked on ends it first: what workers hold of it is refused', async () => {
      const request = await planned(records(), [1])
      const lease = (await records().leaseShard(request.sweepId, 0, 60_000)) ?? expect.unreachable()
      expect(await records().eraseRequest(request.id)).toBe(true)
      expect(await records().renewShard(lease, 0.5, 60_000)).toBe(false)
      expect(await records().finishShard(lease, 'front')).toBe(false)
      expect(await records().finishSweep(request.sweepId, answer, newMail(), { requireConfirmed: false })).toBe(false)
    })

    it('one request leaves the consent that another still needs', async () => {
      const address = freshAddress()
      const { id } = await accept(records(), { address })
      const other = await accept(records(), { address })
      await records().inviteAddress(address, hash(address), { requestId: other.id }, newMail(address))
      await records().confirmAddress(hash(address))
      await records().eraseRequest(id)
      expect(await records().isConfirmed(address)).toBe(true)
      await records().eraseRequest(other.id)
      expect(await records().isConfirmed(address)).toBe(false)
    })

    it('a standing request removes it with its runs; only the id stays', async () => {
      const address = freshAddress()
      const { id } = await stand(records(), { address, body: bodyWith(address), idempotencyKey: address })
      await answerRun(records(), (await run(records(), id, version)) ?? expect.unreachable(), 'h1')
      const late = (await run(records(), id, { ...version, model: '2' })) ?? expect.unreachable()
      expect(await holding(address)).toEqual(['outbox', 'requests', 'standing_requests'])
      expect(await records().deleteStanding(id)).toBe(true)
      expect(await holding(address)).toEqual([])
      expect(await records().getStanding(id)).toMatchObject({ state: 'deleted', address: null, body: '', title: '' })
      expect(await records().getRequest(late.id)).toBeNull()
      expect(await answerRun(records(), late, 'h2')).toBe(false)
      expect(await records().deleteStanding(id)).toBe(false)
      expect((await records().listStanding({ limit: 100, after: null })).rows.map((row) => row.id)).not.toContain(id)
      expect(await run(records(), id, { ...version, model: '3' })).toBeNull()
    })

    it('everything under an address, by the link in one of its mails, leaves a hash not to write to', async () => {
      const address = freshAddress()
      const other = freshAddress()
      const { id } = await stand(records(), { address, body: bodyWith(address) })
      await answerRun(records(), (await run(records(), id, version)) ?? expect.unreachable(), 'h1')
      await accept(records(), { address, body: bodyWith(address) })
      const { idempotencyKey: _key, ...item } = newRequest({ address: null })
      const batch = { title: 'b', address, bodyHash: 'b', idempotencyKey: null, items: [item] }
      await records().acceptBatch(batch)
      await mailed(records(), false, address)
      await mailed(records(), false, other)
      const { rows } = await records().pool.query(
        'select unsubscribe_hash as hash from ductwright.outbox where address = $1 and unsubscribe_hash is not null',
        [address],
      )
      expect(await records().eraseAddress((rows[0] as { hash: string }).hash)).toBe(true)
      expect(await holding(other)).toEqual(['outbox'])
      expect(await holding(address)).toEqual([])
      expect(await records().suppressionOf(address)).toBe('unsubscribed')
      expect(await holding(hash(address))).toEqual(['recipients'])
      expect(await records().eraseAddress(hash('unknown'))).toBe(false)
    })
  })
}
