// Mails: one sender at a time, every outcome kept, one resend after a doubt.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { leaseMs, mailed, until } from '../samples.js'

const plain = { error: null, retryAt: null }

export function mailsSuite(records: () => OpenRecords): void {
  const take = async (id: string, ms = leaseMs) => {
    const lease = await records().leaseMail(id, ms)
    if (lease === null) throw new Error(`mail ${id} could not be leased`)
    return lease
  }
  const stateOf = async (requestId: string) => (await records().mailsOf(requestId))[0]?.state
  const isListed = async (id: string) => (await records().unfinished()).mails.includes(id)

  describe('sending a mail', () => {
    it('is given to one of many who ask at once, with its stored bytes', async () => {
      const { mail, request } = await mailed(records())
      const leases = await Promise.all(Array.from({ length: 20 }, () => records().leaseMail(mail.id, leaseMs)))
      const [lease, ...others] = leases.filter((each) => each !== null)
      expect(others).toEqual([])
      expect(lease).toMatchObject({
        mime: mail.mime,
        token: 1,
        row: { state: 'sending', attempts: 1, address: mail.address },
      })
      expect(await stateOf(request.id)).toBe('sending')
      expect(await isListed(mail.id)).toBe(false)
    })

    it.each(['accepted', 'written', 'failed'] as const)('ends as %s and is never due again', async (state) => {
      const { mail, request } = await mailed(records())
      const { token } = await take(mail.id)
      expect(await records().settleMail(mail.id, token, state, { error: 'said\0so', retryAt: null })).toBe(true)
      expect(await records().mailsOf(request.id)).toMatchObject([{ state, lastError: 'said\uFFFDso', attempts: 1 }])
      expect(await records().leaseMail(mail.id, leaseMs)).toBeNull()
      expect(await isListed(mail.id)).toBe(false)
      expect(await records().settleMail(mail.id, token, 'failed', plain)).toBe(false)
    })

    it('waits for its retry time', async () => {
      const { mail } = await mailed(records())
      const later = new Date(Date.now() + 3_600_000).toISOString()
      const first = await take(mail.id)
      await records().settleMail(mail.id, first.token, 'pending', { error: '451 later', retryAt: later })
      expect(await records().leaseMail(mail.id, leaseMs)).toBeNull()
      expect(await isListed(mail.id)).toBe(false)
      await records().pool.query('update ductwright.outbox set due_at = clock_timestamp() where id = $1', [mail.id])
      expect(await isListed(mail.id)).toBe(true)
      const second = await take(mail.id)
      expect(second.row).toMatchObject({ attempts: 2, lastError: '451 later' })
      expect(second.token).toBe(first.token + 1)
      await records().settleMail(mail.id, second.token, 'pending', plain)
      expect((await take(mail.id)).row.attempts).toBe(3)
    })

    it('is due once more after an unknown outcome, with the same bytes, and then no more', async () => {
      const { mail, request } = await mailed(records())
      const first = await take(mail.id)
      await records().settleMail(mail.id, first.token, 'unknown', {
        error: 'cut off after the final dot',
        retryAt: null,
      })
      expect(await isListed(mail.id)).toBe(true)
      const second = await take(mail.id)
      expect(second.mime).toBe(first.mime)
      expect(second.row.messageId).toBe(first.row.messageId)
      await records().settleMail(mail.id, second.token, 'unknown', { error: 'cut off again', retryAt: null })
      expect(await records().leaseMail(mail.id, leaseMs)).toBeNull()
      expect(await isListed(mail.id)).toBe(false)
      expect(await stateOf(request.id)).toBe('unknown')
    })

    it('treats a sender that vanished as an unknown outcome: due once more, then no more', async () => {
      const { mail, request } = await mailed(records())
      const first = await take(mail.id, 1)
      await until(() => isListed(mail.id))
      expect(await records().mailsOf(request.id)).toMatchObject([
        { state: 'unknown', lastError: expect.stringMatching(/ended/) },
      ])
      const second = await take(mail.id, 1)
      expect(await records().settleMail(mail.id, first.token, 'accepted', plain)).toBe(false)
      await until(async () => {
        await records().unfinished()
        return (await stateOf(request.id)) === 'unknown'
      })
      expect(await isListed(mail.id)).toBe(false)
      expect(await records().leaseMail(mail.id, leaseMs)).toBeNull()
      expect(await records().settleMail(mail.id, second.token, 'accepted', plain)).toBe(true)
      expect(await stateOf(request.id)).toBe('accepted')
    })

    it('is taken over straight from an expired lease, without waiting for the list', async () => {
      const { mail } = await mailed(records())
      await take(mail.id, 1)
      let second: Awaited<ReturnType<OpenRecords['leaseMail']>> = null
      await until(async () => {
        second = await records().leaseMail(mail.id, leaseMs)
        return second !== null
      })
      expect(second).toMatchObject({ token: 2, row: { attempts: 2 } })
    })

    it('refuses outcomes that are none, and unknown mails', async () => {
      const { mail } = await mailed(records())
      const { token } = await take(mail.id)
      const settle = (state: 'held' | 'sending' | 'failed', retryAt: string | null) =>
        records().settleMail(mail.id, token, state, { error: null, retryAt })
      await expect(settle('held', null)).rejects.toThrow(/state: an attempt cannot end as held/)
      await expect(settle('sending', null)).rejects.toThrow(/state: an attempt cannot end as sending/)
      await expect(settle('failed', new Date().toISOString())).rejects.toThrow(/retryAt: only with pending/)
      expect(await records().leaseMail('nobody', leaseMs)).toBeNull()
      expect(await records().leaseMail('\0', leaseMs)).toBeNull()
      await expect(records().leaseMail(mail.id, Number.NaN)).rejects.toThrow(/leaseMs: must be/)
    })
  })
}
