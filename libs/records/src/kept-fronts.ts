// Fronts kept for the next run of a standing request: written with the answer they belong to, read before a run is planned,
// and gone with the request. A front that does not match its checksum is as good as none.

import type { RunVersion } from '@ductwright/contract/standing-version'
import type { KeptFrontRow, NewKept, StandingRecords } from './standing-records.js'
import { clock, type Database, type Session } from './tables.js'
import { exact, isId, sha256 } from './texts.js'

type KeptFronts = Pick<StandingRecords, 'keptFront'>

export function keptFronts(db: Database): KeptFronts {
  return {
    async keptFront(standingId): Promise<KeptFrontRow | null> {
      if (!isId(standingId)) return null
      const row = await db
        .selectFrom('ductwright.kept_fronts')
        .selectAll()
        .where('standing_id', '=', standingId)
        .executeTakeFirst()
      if (row === undefined || sha256(row.front) !== row.front_sha256) return null
      const version = { catalogue: row.catalogue_version, model: row.model_version }
      // The two stores give different kinds of bytes.
      return { question: row.question, version, front: Uint8Array.from(row.front), notes: row.notes }
    },
  }
}

/** In the transaction that ends the run; a run that took a front over leaves it as it is and renews the notes only. */
export async function keepFront(
  session: Session,
  standingId: string,
  version: RunVersion,
  kept: NewKept,
): Promise<void> {
  const notes = exact('notes', kept.notes)
  if (kept.front === null) {
    await session
      .updateTable('ductwright.kept_fronts')
      .set({ notes })
      .where('standing_id', '=', standingId)
      .where('question', '=', kept.question)
      .execute()
    return
  }
  const columns = {
    question: exact('question', kept.question),
    catalogue_version: version.catalogue,
    model_version: version.model,
    front: Buffer.from(kept.front),
    front_sha256: sha256(kept.front),
    notes,
    kept_at: clock,
  }
  await session
    .insertInto('ductwright.kept_fronts')
    .values({ standing_id: standingId, ...columns })
    .onConflict((conflict) => conflict.column('standing_id').doUpdateSet(columns))
    .execute()
}

export async function dropKeptFront(session: Session, standingId: string): Promise<void> {
  await session.deleteFrom('ductwright.kept_fronts').where('standing_id', '=', standingId).execute()
}
