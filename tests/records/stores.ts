// The stores every test of the conformance suite runs on, each opened once for a test file.

import { type OpenRecords, openRecords } from '@ductwright/records/open-records'
import { freshDataFolder } from '../servers/embedded-folder.js'
import type { TestPostgres } from '../servers/postgres.js'

export interface OpenStore {
  readonly records: OpenRecords
  close(): Promise<void>
}

export async function embeddedStore(): Promise<OpenStore> {
  const folder = await freshDataFolder()
  const records = await openRecords({ dataFolder: folder.path })
  return {
    records,
    async close() {
      await records.close()
      await folder.remove()
    },
  }
}

export async function serverStore(server: TestPostgres): Promise<OpenStore> {
  const records = await openRecords({ databaseUrl: await server.freshDatabase() })
  return { records, close: () => records.close() }
}
