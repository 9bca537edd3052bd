// Catalogue versions: immutable content under its version, and which one is current (the shared one put last). Versions made
// of a private layer are kept beside them and are never current; their put_order of 0 keeps them behind every shared one.

import { type Selectable, sql } from 'kysely'
import type {
  CatalogueOrigin,
  CatalogueRecords,
  CatalogueVersionRow,
  NewCatalogueVersion,
} from './catalogue-records.js'
import { cursorAt, positionOf } from './cursor.js'
import type { CatalogueVersionsTable, Database, Session } from './tables.js'
import { exact, isId, readable } from './texts.js'
import { transact } from './transact.js'

type CatalogueVersions = Omit<CatalogueRecords, 'addLayer' | 'getLayer' | 'changeLayer' | 'deleteLayer'>

export function catalogueVersions(db: Database): CatalogueVersions {
  return {
    putCatalogue: (version, name, content) => put(db, { version, name, content }, 'start'),

    uploadCatalogue: (next, expected) =>
      transact(db, async (transaction) => {
        // Two uploads with the same expectation: the second waits here, and then finds what the first has put.
        await sql`lock table ductwright.catalogue_versions in share row exclusive mode`.execute(transaction)
        const current = await currentVersion(transaction)
        if (expected !== null && current !== expected) return false
        if (current !== next.version) await put(transaction, next, 'upload')
        return true
      }),

    async keepLayeredCatalogue(next, layerId) {
      const stored = await db
        .insertInto('ductwright.catalogue_versions')
        .values({ ...columnsOf(next), origin: 'layer', layer_id: layerId, put_order: sql<string>`0` })
        .onConflict((conflict) =>
          conflict
            .column('version')
            .doUpdateSet({ content: sql<string>`excluded.content` })
            .where('ductwright.catalogue_versions.content', '=', next.content),
        )
        .returning('version')
        .executeTakeFirst()
      if (stored === undefined) refuseOther(next.version)
    },

    async getCatalogue(version) {
      if (version.includes('\0')) return null
      const row = await db
        .selectFrom('ductwright.catalogue_versions')
        .select('content')
        .where('version', '=', version)
        .executeTakeFirst()
      return row?.content ?? null
    },

    async currentCatalogue() {
      const row = await newestShared(db).select(['version', 'content']).executeTakeFirst()
      return row ?? null
    },

    async describeCatalogue(version) {
      if (version.includes('\0')) return null
      const row = await described(db).where('version', '=', version).executeTakeFirst()
      return row === undefined ? null : asVersion(row, await currentVersion(db))
    },

    async listCatalogues({ limit, after }) {
      if (!Number.isInteger(limit) || limit < 1)
        throw new RangeError(`limit: must be a whole number from 1, is ${limit}`)
      const found = await pageOf(db, limit + 1, after).execute()
      const current = await currentVersion(db)
      const rows = found.slice(0, limit).map((row) => asVersion(row, current))
      const last = rows.at(-1)
      const more = found.length > limit && last !== undefined
      return { rows, next: more ? cursorAt({ createdAt: last.createdAt, id: last.version }) : null }
    },
  }
}

const columnsOf = ({ version, name, content }: NewCatalogueVersion) => ({
  version: exact('version', version),
  name: readable(name),
  content: exact('content', content),
})

/** A version that came from a private layer before and is now put for everyone is everyone's. */
async function put(session: Session, next: NewCatalogueVersion, origin: CatalogueOrigin): Promise<void> {
  const stored = await session
    .insertInto('ductwright.catalogue_versions')
    .values({ ...columnsOf(next), origin })
    .onConflict((conflict) =>
      conflict
        .column('version')
        .doUpdateSet({ put_order: sql`nextval('ductwright.catalogue_order')`, origin, layer_id: null })
        .where('ductwright.catalogue_versions.content', '=', next.content),
    )
    .returning('version')
    .executeTakeFirst()
  if (stored === undefined) refuseOther(next.version)
}

function refuseOther(version: string): never {
  throw new RangeError(`version: ${version} is kept already with other content, and a version never changes`)
}

function newestShared(session: Session) {
  return session
    .selectFrom('ductwright.catalogue_versions')
    .where('origin', '<>', 'layer')
    .orderBy('put_order', 'desc')
    .limit(1)
}

async function currentVersion(session: Session): Promise<string | null> {
  const row = await newestShared(session).select('version').executeTakeFirst()
  return row?.version ?? null
}

/** Milliseconds only: as fine as a cursor is. */
const created = sql<Date>`date_trunc('milliseconds', created_at)`

function described(session: Session) {
  return session
    .selectFrom('ductwright.catalogue_versions')
    .select(['version', 'name', 'origin', created.as('created_at')])
    .select(sql<number>`octet_length(content)`.as('bytes'))
    .where('origin', '<>', 'layer')
}

function pageOf(session: Session, limit: number, after: string | null) {
  const newest = described(session).orderBy(created, 'desc').orderBy('version', 'desc').limit(limit)
  if (after === null) return newest
  const { createdAt, id } = positionOf(after, isVersion)
  return newest.where(sql<boolean>`(${created}, version) < (${createdAt}::timestamptz, ${id}::text)`)
}

/** Hashes, and the short names that tests give. */
const isVersion = (text: string): boolean => isId(text) || /^[0-9a-z-]{1,64}$/.test(text)

type Described = Pick<Selectable<CatalogueVersionsTable>, 'version' | 'name' | 'origin' | 'created_at'> & {
  readonly bytes: number
}

function asVersion(row: Described, current: string | null): CatalogueVersionRow {
  return {
    version: row.version,
    name: row.name,
    origin: row.origin,
    createdAt: row.created_at.toISOString(),
    bytes: Number(row.bytes),
    current: row.version === current,
  }
}
