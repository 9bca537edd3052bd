// Private layers: own parts of one owner under an id nobody can guess, replaced whole while they are what was last read.

import { randomUUID } from 'node:crypto'
import type { Selectable } from 'kysely'
import type { CatalogueLayerRow, CatalogueRecords } from './catalogue-records.js'
import { type CatalogueLayersTable, clockInMilliseconds, type Database } from './tables.js'
import { exact, isId, readable } from './texts.js'
import { transact } from './transact.js'

type CatalogueLayers = Pick<CatalogueRecords, 'addLayer' | 'getLayer' | 'changeLayer' | 'deleteLayer'>

export function catalogueLayers(db: Database): CatalogueLayers {
  return {
    async addLayer(layer) {
      const row = await db
        .insertInto('ductwright.catalogue_layers')
        .values({
          id: randomUUID(),
          ...columnsOf(layer),
          created_at: clockInMilliseconds,
          changed_at: clockInMilliseconds,
        })
        .returningAll()
        .executeTakeFirstOrThrow()
      return asLayer(row)
    },

    async getLayer(id) {
      if (!isId(id)) return null
      const row = await db.selectFrom('ductwright.catalogue_layers').selectAll().where('id', '=', id).executeTakeFirst()
      return row === undefined ? null : asLayer(row)
    },

    async changeLayer(id, layer, expected) {
      if (!isId(id)) return null
      const row = await db
        .updateTable('ductwright.catalogue_layers')
        .set({ ...columnsOf(layer), changed_at: clockInMilliseconds })
        .where('id', '=', id)
        .where('version', '=', expected)
        .returningAll()
        .executeTakeFirst()
      return row === undefined ? null : asLayer(row)
    },

    deleteLayer: (id) =>
      transact(db, async (transaction) => {
        if (!isId(id)) return false
        await transaction
          .deleteFrom('ductwright.catalogue_versions')
          .where('layer_id', '=', id)
          .where('origin', '=', 'layer')
          .where((where) =>
            where.not(
              where.exists(
                where
                  .selectFrom('ductwright.sweeps')
                  .select('ductwright.sweeps.id')
                  .whereRef('ductwright.sweeps.catalogue_version', '=', 'ductwright.catalogue_versions.version'),
              ),
            ),
          )
          .execute()
        const gone = await transaction
          .deleteFrom('ductwright.catalogue_layers')
          .where('id', '=', id)
          .returning('id')
          .executeTakeFirst()
        return gone !== undefined
      }),
  }
}

const columnsOf = ({ name, content, version }: Pick<CatalogueLayerRow, 'name' | 'content' | 'version'>) => ({
  name: readable(name),
  content: exact('content', content),
  version: exact('version', version),
})

function asLayer(row: Selectable<CatalogueLayersTable>): CatalogueLayerRow {
  return {
    id: row.id,
    name: row.name,
    content: row.content,
    version: row.version,
    createdAt: row.created_at.toISOString(),
    changedAt: row.changed_at.toISOString(),
  }
}
