// Addresses: invited once, confirmed by the token's hash, their mails held until then.

import { randomUUID } from 'node:crypto'
import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { accept, answer, hash, leaseMs, mailed, newMail, planned } from '../samples.js'

export function addressesSuite(records: () => OpenRecords): void {
  const invite = async (address: string, token: string) => {
    const request = await accept(records(), { address })
    const { address: _, ...mail } = newMail(address)
    return {
      request,
      mail,
      invited: await records().inviteAddress(address, hash(token), { requestId: request.id }, mail),
    }
  }
  const freshAddress = () => `${randomUUID()}@example.org`

  describe('confirming an address', () => {
    it('invites once: the confirmation mail is due at once, a second invitation does nothing', async () => {
      const address = freshAddress()
      const first = await invite(address, 'first token')
      expect(first.invited).toBe(true)
      expect(await records().mailsOf(first.request.id)).toMatchObject([
        { id: first.mail.id, kind: 'confirmation', state: 'pending', address },
      ])
      expect((await records().unfinished()).mails).toContain(first.mail.id)
      const second = await invite(address, 'second token')
      expect(second.invited).toBe(false)
      expect(await records().mailsOf(second.request.id)).toEqual([])
      expect(await records().isConfirmed(address)).toBe(false)
    })

    it('invites once when many requests for a new address arrive together', async () => {
      const address = freshAddress()
      const invited = await Promise.all(Array.from({ length: 10 }, (_, n) => invite(address, `${address} ${n}`)))
      expect(invited.filter((each) => each.invited)).toHaveLength(1)
    })

    it('holds the mails of an unconfirmed address and releases them with the confirmation', async () => {
      const address = freshAddress()
      await invite(address, address)
      const { request, mail } = await mailed(records(), true, address)
      expect(await records().mailsOf(request.id)).toMatchObject([{ state: 'held' }])
      expect(await records().leaseMail(mail.id, leaseMs)).toBeNull()
      expect((await records().unfinished()).mails).not.toContain(mail.id)
      expect(await records().confirmAddress(hash('another'))).toBeNull()
      expect(await records().confirmAddress('\0')).toBeNull()
      expect(await records().confirmAddress(hash(address))).toBe(address)
      expect(await records().isConfirmed(address)).toBe(true)
      expect(await records().mailsOf(request.id)).toMatchObject([{ state: 'pending' }])
      expect((await records().unfinished()).mails).toContain(mail.id)
      expect((await records().leaseMail(mail.id, leaseMs))?.mime).toBe(mail.mime)
    })

    it('does not hold later mails, nor any when confirmation is not asked for', async () => {
      const address = freshAddress()
      const free = await mailed(records(), false, address)
      expect(await records().mailsOf(free.request.id)).toMatchObject([{ state: 'pending' }])
      await invite(address, address)
      await records().confirmAddress(hash(address))
      expect(await records().confirmAddress(hash(address))).toBe(address)
      const later = await mailed(records(), true, address)
      expect(await records().mailsOf(later.request.id)).toMatchObject([{ state: 'pending' }])
      expect((await invite(address, 'new')).invited).toBe(false)
    })

    it('releases a mail that is written while the confirmation arrives', async () => {
      for (let round = 0; round < 10; round++) {
        const address = freshAddress()
        await invite(address, address)
        const request = await planned(records(), [1])
        const mail = newMail(address)
        await Promise.all([
          records().finishSweep(request.sweepId, answer, mail, { requireConfirmed: true }),
          records().confirmAddress(hash(address)),
        ])
        expect(await records().mailsOf(request.id)).toMatchObject([{ state: 'pending' }])
      }
    })

    it('releases a held mail whose address was registered and confirmed behind its back', async () => {
      const address = freshAddress()
      const { request, mail } = await mailed(records(), true, address)
      await records().pool.query(
        "insert into ductwright.addresses (address, token_hash, state) values ($1, $2, 'confirmed')",
        [address, hash(address)],
      )
      expect((await records().unfinished()).mails).toContain(mail.id)
      expect(await records().mailsOf(request.id)).toMatchObject([{ state: 'pending' }])
    })

    it('tells apart addresses that differ only in case', async () => {
      const address = freshAddress()
      await invite(address, address)
      await records().confirmAddress(hash(address))
      expect(await records().isConfirmed(address.toUpperCase())).toBe(false)
      expect(await records().isConfirmed('\0')).toBe(false)
    })
  })
}
