// Catalogue versions: immutable content under its version, and which one is current (the one put last).

import { sql } from 'kysely'
import type { Records } from './records.js'
import type { Database } from './tables.js'
import { exact, readable } from './texts.js'

type CatalogueVersions = Pick<Records, 'putCatalogue' | 'getCatalogue' | 'currentCatalogue'>

export function catalogueVersions(db: Database): CatalogueVersions {
  return {
    async putCatalogue(version, name, content) {
      const stored = await db
        .insertInto('ductwright.catalogue_versions')
        .values({ version: exact('version', version), name: readable(name), content: exact('content', content) })
        .onConflict((conflict) =>
          conflict
            .column('version')
            .doUpdateSet({ put_order: sql`nextval('ductwright.catalogue_order')` })
            .where('ductwright.catalogue_versions.content', '=', content),
        )
        .returning('version')
        .executeTakeFirst()
      if (stored === undefined) {
        throw new RangeError(`version: ${version} is kept already with other content, and a version never changes`)
      }
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
      const row = await db
        .selectFrom('ductwright.catalogue_versions')
        .select(['version', 'content'])
        .orderBy('put_order', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row ?? null
    },
  }
}
