// Addresses and their consent: an address gets one confirmation mail, and its other mails wait until the owner of the
// mailbox has confirmed. Only the hash of the token is kept, so a copy of the store confirms nothing.

import type { MailRecords } from './mail-records.js'
import { addToOutbox } from './outbox.js'
import { liftSuppression, suppressionOf } from './recipients.js'
import { clock, type Database } from './tables.js'
import { exact } from './texts.js'
import { transact } from './transact.js'

type Addresses = Pick<MailRecords, 'inviteAddress' | 'confirmAddress' | 'isConfirmed' | 'suppressionOf'>

export function addresses(db: Database): Addresses {
  return {
    inviteAddress: (address, tokenHash, owner, mail) =>
      transact(db, async (transaction) => {
        const added = await transaction
          .insertInto('ductwright.addresses')
          .values({
            address: exact('address', address),
            token_hash: exact('tokenHash', tokenHash),
            state: 'waiting',
          })
          .onConflict((conflict) => conflict.column('address').doNothing())
          .returning('address')
          .executeTakeFirst()
        if (added === undefined) return false
        const confirmation = { ...mail, address, owner, kind: 'confirmation' as const, answerHash: null }
        await addToOutbox(transaction, confirmation, { requireConfirmed: false })
        return true
      }),

    confirmAddress: (tokenHash) =>
      transact(db, async (transaction) => {
        if (tokenHash.includes('\0')) return null
        const row = await transaction
          .updateTable('ductwright.addresses')
          .set((of) => ({ state: 'confirmed', confirmed_at: of.fn.coalesce('confirmed_at', clock) }))
          .where('token_hash', '=', tokenHash)
          .returning('address')
          .executeTakeFirst()
        if (row === undefined) return null
        await transaction
          .updateTable('ductwright.outbox')
          .set({ state: 'pending', due_at: clock })
          .where('state', '=', 'held')
          .where('address', '=', row.address)
          .execute()
        await liftSuppression(transaction, row.address)
        return row.address
      }),

    async isConfirmed(address) {
      if (address.includes('\0')) return false
      const row = await db
        .selectFrom('ductwright.addresses')
        .select('state')
        .where('address', '=', address)
        .executeTakeFirst()
      return row?.state === 'confirmed'
    },

    suppressionOf: async (address) => (address.includes('\0') ? null : suppressionOf(db, address)),
  }
}
