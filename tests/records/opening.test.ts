// Opening a store: refused when its tables are ahead of the program, harmless when repeated or raced.

import { type OpenRecords, openRecords, type RecordsOptions } from '@ductwright/records/open-records'
import { isUnavailable } from '@ductwright/records/unavailable'
import { afterAll, describe, expect, it } from 'vitest'
import { freshDataFolder } from '../servers/embedded-folder.js'
import { testPostgres } from '../servers/postgres.js'
import { describeWith } from '../servers/test-server.js'
import { accept, catalogueVersion, until } from './samples.js'

const server = await testPostgres()
afterAll(() => server?.stop())

const steps = ['0001-first-tables', '0002-catalogue-layers', '0003-standing-requests', '0004-kept-fronts'].map(
  (name) => ({ name }),
)

async function refusesNewerTables(options: RecordsOptions): Promise<void> {
  const records = await openRecords(options)
  await records.pool.query("insert into ductwright.migrations (name, timestamp) values ('9999-from-the-future', '')")
  await records.close()
  const opening = openRecords(options)
  await expect(opening).rejects.toThrow(/ahead of this program: they hold migration 9999-from-the-future/)
  await expect(opening).rejects.toMatchObject({ name: 'StoreRefused' })
}

describe('opening an embedded store', () => {
  it('is refused when its tables are ahead of the program, and frees the folder again', async () => {
    const folder = await freshDataFolder()
    await refusesNewerTables({ dataFolder: folder.path })
    await expect(openRecords({ dataFolder: folder.path })).rejects.toMatchObject({ name: 'StoreRefused' })
    await folder.remove()
  })
})

describeWith(server, 'opening a store on a server', (postgres) => {
  it('is refused when its tables are ahead of the program', async () => {
    await refusesNewerTables({ databaseUrl: await postgres.freshDatabase() })
  })

  it('makes the tables once when several processes open an empty database at once', async () => {
    const databaseUrl = await postgres.freshDatabase()
    const opened = await Promise.all(Array.from({ length: 4 }, () => openRecords({ databaseUrl })))
    const { rows } = await (opened[0] as OpenRecords).pool.query('select name from ductwright.migrations order by 1')
    expect(rows).toEqual(steps)
    await Promise.all(opened.map((records) => records.close()))
  })

  it('fails with an error that says "unavailable" when nothing listens at the address', async () => {
    const error = await openRecords({ databaseUrl: 'postgres://nobody@127.0.0.1:9/none' }).catch((reason) => reason)
    expect(isUnavailable(error)).toBe(true)
  })

  it('goes on after all its connections were cut', async () => {
    const records = await openRecords({ databaseUrl: await postgres.freshDatabase() })
    await records.putCatalogue(catalogueVersion, 'invented', '{}')
    const cut =
      'select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()'
    await Promise.all([records.ping(), records.ping(), records.ping()])
    await records.pool.query(cut)
    await until(() =>
      records.ping().then(
        () => true,
        () => false,
      ),
    )
    expect((await accept(records)).state).toBe('accepted')
    await records.close()
  })

  it('says "unavailable" while the server is down, and has every acknowledged request when it is back', async () => {
    const { faults } = postgres
    if (faults === null) return console.warn('this server is not ours to stop: the outage was not tried')
    const records = await openRecords({ databaseUrl: await postgres.freshDatabase() })
    await records.putCatalogue(catalogueVersion, 'invented', '{}')
    const ids = (await Promise.all(Array.from({ length: 20 }, () => accept(records)))).map((request) => request.id)
    await faults.kill()
    const errors = await Promise.all([records.ping(), accept(records)].map((work) => work.catch((reason) => reason)))
    expect(errors.map(isUnavailable)).toEqual([true, true])
    await faults.start()
    await until(() =>
      records.ping().then(
        () => true,
        () => false,
      ),
    )
    for (const id of ids) expect(await records.getRequest(id)).toMatchObject({ id })
    await records.close()
  })
})

describe('telling an outage from a mistake', () => {
  const withCode = (code: string) => Object.assign(new Error('some text'), { code })
  it.each(['57P01', '57P03', '08006', '53100', '53300', 'ECONNREFUSED', 'ENOSPC'])('%s is an outage', (code) => {
    expect(isUnavailable(withCode(code))).toBe(true)
    expect(isUnavailable(new Error('outer', { cause: withCode(code) }))).toBe(true)
    expect(isUnavailable(new AggregateError([withCode(code)]))).toBe(true)
  })
  it.each(['23505', '42601', '22021', 'ERR_X'])('%s is not', (code) => {
    expect(isUnavailable(withCode(code))).toBe(false)
  })
  it('an ordinary error is not', () => {
    expect(isUnavailable(new RangeError('limit: must be a whole number'))).toBe(false)
    expect(isUnavailable('text')).toBe(false)
  })
})
