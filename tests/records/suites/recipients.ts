// Whom the outbox does not write to: unsubscribed, refused by the mailbox, or written to enough for one day.

import { randomUUID } from 'node:crypto'
import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import {
  accept,
  answer,
  answerRun,
  catalogueVersion,
  hash,
  leaseMs,
  mailed,
  newMail,
  planned,
  run,
  stand,
} from '../samples.js'

const version = { catalogue: catalogueVersion, model: '1' }

export function recipientsSuite(records: () => OpenRecords): void {
  const freshAddress = () => `${randomUUID()}@example.org`
  const stateOf = async (requestId: string) => (await records().mailsOf(requestId)).map((mail) => mail.state)

  /** An answered request whose mail carries an unsubscribe link; the link's hash. */
  const linked = async (address: string) => {
    const request = await planned(records(), [1])
    const unsubscribeHash = hash(randomUUID())
    await records().finishSweep(
      request.sweepId,
      answer,
      { ...newMail(address), unsubscribeHash },
      { requireConfirmed: false },
    )
    return { request, unsubscribeHash }
  }

  describe('a mailbox that refuses mail for good', () => {
    it('gets nothing more: what waits and what comes is suppressed and says so', async () => {
      const address = freshAddress()
      const first = await mailed(records(), false, address)
      const waiting = await mailed(records(), false, address)
      const other = await mailed(records(), false, freshAddress())
      const { token } = (await records().leaseMail(first.mail.id, leaseMs)) ?? expect.unreachable()
      await records().settleMail(first.mail.id, token, 'failed', {
        error: '550 no such user',
        retryAt: null,
        bounced: true,
      })
      expect(await records().suppressionOf(address)).toBe('bounced')
      expect(await stateOf(first.request.id)).toEqual(['failed'])
      expect(await stateOf(waiting.request.id)).toEqual(['suppressed'])
      expect(await stateOf(other.request.id)).toEqual(['pending'])
      const later = await mailed(records(), false, address)
      expect(await stateOf(later.request.id)).toEqual(['suppressed'])
      expect(await records().leaseMail(later.mail.id, leaseMs)).toBeNull()
    })

    it('is written to again once its owner has confirmed it', async () => {
      const address = freshAddress()
      const { id } = await accept(records(), { address })
      await records().inviteAddress(address, hash(address), { requestId: id }, newMail(address))
      const { request, unsubscribeHash } = await linked(address)
      expect(await records().unsubscribe(unsubscribeHash, 'all')).toBe(true)
      expect(await stateOf(request.id)).toEqual(['suppressed'])
      await records().confirmAddress(hash(address))
      expect(await records().suppressionOf(address)).toBeNull()
      expect(await stateOf((await mailed(records(), true, address)).request.id)).toEqual(['pending'])
    })
  })

  describe('one address', () => {
    it('gets its share of a day; the rest waits and is not lost', async () => {
      const address = freshAddress()
      const limit = { perDay: 3 }
      const all = []
      for (let n = 0; n < 5; n++) all.push(await mailed(records(), false, address))
      const leases = await Promise.all(all.map(({ mail }) => records().leaseMail(mail.id, leaseMs, limit)))
      expect(leases.filter((lease) => lease !== null)).toHaveLength(3)
      const waiting = all.filter((_, n) => leases[n] === null)
      for (const { request, mail } of waiting) {
        const [row] = await records().mailsOf(request.id)
        expect(row).toMatchObject({ state: 'pending', attempts: 0 })
        expect(Date.parse(row?.dueAt ?? '') - Date.now()).toBeGreaterThan(23 * 3_600_000)
        expect((await records().unfinished()).mails).not.toContain(mail.id)
      }
      const day =
        "update ductwright.recipients set window_start = window_start - interval '25 hours' where address_sha256 = $1"
      await records().pool.query(day, [hash(address)])
      await records().pool.query('update ductwright.outbox set due_at = clock_timestamp() where address = $1', [
        address,
      ])
      expect(await records().leaseMail(waiting[0]?.mail.id ?? '', leaseMs, limit)).toMatchObject({
        row: { attempts: 1 },
      })
    })

    it('is not charged for further attempts of one mail', async () => {
      const address = freshAddress()
      const { mail } = await mailed(records(), false, address)
      for (let attempt = 1; attempt <= 3; attempt++) {
        const lease = (await records().leaseMail(mail.id, leaseMs, { perDay: 1 })) ?? expect.unreachable()
        expect(lease.row.attempts).toBe(attempt)
        await records().settleMail(mail.id, lease.token, 'pending', { error: '451', retryAt: null })
      }
    })
  })

  describe('an unsubscribe link', () => {
    it('of a standing request ends that one and nothing else', async () => {
      const address = freshAddress()
      const row = await stand(records(), { address })
      const other = await stand(records(), { address })
      const first = (await run(records(), row.id, version)) ?? expect.unreachable()
      await answerRun(records(), first, 'h1')
      const { rows } = await records().pool.query(
        'select unsubscribe_hash from ductwright.outbox where request_id = $1',
        [first.id],
      )
      const link = (rows[0] as { unsubscribe_hash: string }).unsubscribe_hash
      expect(await records().subscription(link)).toEqual({ title: row.title, standingId: row.id })
      expect(await records().getStanding(row.id)).toMatchObject({ state: 'active' })
      expect(await records().unsubscribe(link, 'this')).toBe(true)
      expect(await records().unsubscribe(link, 'this')).toBe(true)
      expect(await records().getStanding(row.id)).toMatchObject({ state: 'paused', unsubscribed: true })
      expect(await records().setStandingState(row.id, 'active')).toBeNull()
      expect(await stateOf(first.id)).toEqual(['suppressed'])
      expect(await records().getStanding(other.id)).toMatchObject({ state: 'active' })
      expect(await records().suppressionOf(address)).toBeNull()
      expect(await records().unsubscribe(link, 'all')).toBe(true)
      expect(await records().getStanding(other.id)).toMatchObject({ state: 'paused', unsubscribed: true })
      expect(await records().suppressionOf(address)).toBe('unsubscribed')
    })

    it('of a single answer ends all mail to the address; an unknown one ends nothing', async () => {
      const address = freshAddress()
      const { unsubscribeHash } = await linked(address)
      expect(await records().subscription(unsubscribeHash)).toMatchObject({ standingId: null })
      expect(await records().unsubscribe(unsubscribeHash, 'this')).toBe(true)
      expect(await records().suppressionOf(address)).toBe('unsubscribed')
      expect(await records().unsubscribe(hash('unknown'), 'all')).toBe(false)
      expect(await records().subscription('\0')).toBeNull()
    })
  })
}
