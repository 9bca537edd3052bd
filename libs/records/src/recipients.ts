// Whom not to write to, and how much was written to one address lately. Rows are named by the hash of the address, so that
// the promise not to write outlives the address itself. Row order of locks: a mail first, then its recipient.

import { sql } from 'kysely'
import type { Suppression } from './mail-records.js'
import { clock, type Session } from './tables.js'
import { sha256 } from './texts.js'

const dayMs = 86_400_000

/** `wait`: the day's share is used up; more after `untilMs` from now. */
export type Admission =
  | { readonly admitted: true }
  | { readonly admitted: false; readonly suppressed: Suppression }
  | { readonly admitted: false; readonly suppressed: null; readonly untilMs: number }

/** Counts one mail to the address, unless it may not be sent now. The row's lock makes the count exact. */
export async function admit(session: Session, address: string, perDay: number): Promise<Admission> {
  const { rows } = await sql<{ sent: number }>`
    insert into ductwright.recipients as known (address_sha256, sent) values (${sha256(address)}, 1)
    on conflict (address_sha256) do update set
      sent = case when known.window_start < ${dayAgo} then 1 else known.sent + 1 end,
      window_start = case when known.window_start < ${dayAgo} then ${clock} else known.window_start end
    where known.suppressed is null and (known.window_start < ${dayAgo} or known.sent < ${perDay})
    returning sent`.execute(session)
  if (rows.length > 0) return { admitted: true }
  const row = await session
    .selectFrom('ductwright.recipients')
    .select('suppressed')
    .select(sql<number>`extract(epoch from window_start - ${dayAgo})::double precision * 1000`.as('left'))
    .where('address_sha256', '=', sha256(address))
    .executeTakeFirst()
  if (row?.suppressed) return { admitted: false, suppressed: row.suppressed }
  return { admitted: false, suppressed: null, untilMs: Math.max(1, row?.left ?? dayMs) }
}

const dayAgo = sql<Date>`(clock_timestamp() - interval '1 day')`

export async function suppress(session: Session, address: string, why: Suppression): Promise<void> {
  await session
    .insertInto('ductwright.recipients')
    .values({ address_sha256: sha256(address), suppressed: why, suppressed_at: clock })
    .onConflict((conflict) => conflict.column('address_sha256').doUpdateSet({ suppressed: why, suppressed_at: clock }))
    .execute()
}

/** Its owner has shown that mail arrives and is wanted. */
export async function liftSuppression(session: Session, address: string): Promise<void> {
  await session
    .updateTable('ductwright.recipients')
    .set({ suppressed: null, suppressed_at: null })
    .where('address_sha256', '=', sha256(address))
    .execute()
}

export async function suppressionOf(session: Session, address: string): Promise<Suppression | null> {
  const row = await session
    .selectFrom('ductwright.recipients')
    .select('suppressed')
    .where('address_sha256', '=', sha256(address))
    .executeTakeFirst()
  return row?.suppressed ?? null
}

/** What waits for the address is not sent. */
export async function dropWaiting(session: Session, address: string): Promise<void> {
  await session
    .updateTable('ductwright.outbox')
    .set({ state: 'suppressed', due_at: clock })
    .where('address', '=', address)
    .where('state', 'in', ['held', 'pending'])
    .execute()
}

/** The count goes with the address; a suppression stays, as a hash. */
export async function forgetRecipient(session: Session, address: string): Promise<void> {
  await session
    .deleteFrom('ductwright.recipients')
    .where('address_sha256', '=', sha256(address))
    .where('suppressed', 'is', null)
    .execute()
}
