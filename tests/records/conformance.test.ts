// One suite for both stores: what the records promise holds on the embedded database and on a server alike.

import { afterAll, beforeAll, describe } from 'vitest'
import { testPostgres } from '../servers/postgres.js'
import { describeWith } from '../servers/test-server.js'
import { catalogueVersion } from './samples.js'
import { embeddedStore, type OpenStore, serverStore } from './stores.js'
import { addressesSuite } from './suites/addresses.js'
import { batchesSuite } from './suites/batches.js'
import { catalogueLayersSuite } from './suites/catalogue-layers.js'
import { cataloguesSuite } from './suites/catalogues.js'
import { erasureSuite } from './suites/erasure.js'
import { keptFrontsSuite } from './suites/kept-fronts.js'
import { mailsSuite } from './suites/mails.js'
import { recipientsSuite } from './suites/recipients.js'
import { requestsSuite } from './suites/requests.js'
import { shardsSuite } from './suites/shards.js'
import { standingSuite } from './suites/standing.js'
import { standingRunsSuite } from './suites/standing-runs.js'
import { sweepsSuite } from './suites/sweeps.js'
import { unfinishedSuite } from './suites/unfinished.js'

const server = await testPostgres()
afterAll(() => server?.stop())

function everySuite(open: () => Promise<OpenStore>): void {
  let store: OpenStore
  beforeAll(async () => {
    store = await open()
    await store.records.putCatalogue(catalogueVersion, 'invented', '{"fans":[]}')
  })
  afterAll(() => store.close())
  const records = () => store.records
  for (const suite of [
    cataloguesSuite,
    requestsSuite,
    sweepsSuite,
    shardsSuite,
    mailsSuite,
    addressesSuite,
    unfinishedSuite,
    standingSuite,
    standingRunsSuite,
    keptFrontsSuite,
    batchesSuite,
    recipientsSuite,
    erasureSuite,
    catalogueLayersSuite,
  ]) {
    suite(records)
  }
}

describe('records on the embedded database', () => everySuite(embeddedStore))
describeWith(server, 'records on a Postgres server', (postgres) => everySuite(() => serverStore(postgres)))
