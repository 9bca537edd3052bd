// A value read through either pool has the same JavaScript shape, so that one row mapping serves both stores.

import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { testPostgres } from '../servers/postgres.js'
import { describeWith } from '../servers/test-server.js'
import { embeddedStore, type OpenStore, serverStore } from './stores.js'

const server = await testPostgres()
afterAll(() => server?.stop())

const read = `select $1::int8 as int8, $2::int4 as int4, $3::float8 as float8, $4::boolean as bool, $5::text as text,
  $6::jsonb as json, $7::timestamptz as time, $8::uuid as uuid, $9::text[] as texts, $10::int8[] as int8s,
  $11::numeric as numeric, null::text as nothing`
const values = [
  '9007199254740993',
  -7,
  0.1,
  true,
  'ß \\ "',
  '{"b":[1,null],"a":"ü"}',
  '2026-03-04T05:06:07.891Z',
  '7f8d8a3e-5a8e-4f0e-9d5d-2f1a3b4c5d6e',
  ['a', 'b,"c'],
  ['1', '2'],
  '1.50',
]
const row = {
  int8: '9007199254740993',
  int4: -7,
  float8: 0.1,
  bool: true,
  text: 'ß \\ "',
  json: { a: 'ü', b: [1, null] },
  time: new Date('2026-03-04T05:06:07.891Z'),
  uuid: '7f8d8a3e-5a8e-4f0e-9d5d-2f1a3b4c5d6e',
  texts: ['a', 'b,"c'],
  int8s: ['1', '2'],
  numeric: '1.50',
  nothing: null,
}

function shapes(open: () => Promise<OpenStore>): void {
  let store: OpenStore
  beforeAll(async () => {
    store = await open()
  })
  afterAll(() => store.close())

  it('reads every type the service uses as node-postgres does', async () => {
    expect(await store.records.pool.query(read, values)).toMatchObject({ rows: [row], rowCount: 1, command: 'SELECT' })
  })

  it('has the queue schema on the search path of every connection', async () => {
    const client = await store.records.pool.connect()
    const { rows } = await client.query('show search_path')
    client.release()
    expect(rows).toEqual([{ search_path: 'bullmq' }])
  })
}

describe('values from the embedded database', () => shapes(embeddedStore))
describeWith(server, 'values from a Postgres server', (postgres) => shapes(() => serverStore(postgres)))
