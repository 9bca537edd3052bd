// The pool over the embedded database behaves like node-postgres' pool where the query builder and the job queue rely on
// it, though everyone shares one session.

import { EmbeddedPool } from '@ductwright/records/embedded/embedded-pool'
import { insideTransaction } from '@ductwright/records/transaction-scope'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { freshDataFolder, type ScratchFolder } from '../servers/embedded-folder.js'
import { until } from './samples.js'

describe('the pool over the embedded database', () => {
  let folder: ScratchFolder
  let pool: EmbeddedPool

  beforeAll(async () => {
    folder = await freshDataFolder()
    pool = await EmbeddedPool.open({ dataFolder: folder.path, idleInTransactionMs: 1_000 })
    await pool.query('create table numbers (n integer)')
  })
  beforeEach(async () => {
    await pool.query('delete from numbers')
  })
  afterAll(async () => {
    await pool.end()
    await folder.remove()
  })

  const numbers = async () =>
    (await pool.query<{ n: number }>('select n from numbers order by n')).rows.map((row) => row.n)

  it('keeps statements of others out of a transaction: they wait for its end', async () => {
    const order: string[] = []
    const client = await pool.connect()
    await client.query('begin')
    await client.query('insert into numbers values (1)')
    const other = pool.query('insert into numbers values (2)').then(() => order.push('other'))
    const third = pool.connect().then(async (late) => {
      await late.query('insert into numbers values (3)')
      order.push('third')
      late.release()
    })
    await client.query('insert into numbers values (4)')
    order.push('rollback')
    await client.query('rollback')
    await Promise.all([other, third])
    client.release()
    expect(order[0]).toBe('rollback')
    expect(await numbers()).toEqual([2, 3])
  })

  it('runs the statements of one client in their order, also when they are not awaited', async () => {
    const client = await pool.connect()
    const results = [
      client.query('begin'),
      client.query('insert into numbers values (1)'),
      client.query('insert into numbers values (2)'),
      client.query('commit'),
    ]
    await pool.query('insert into numbers values (3)')
    const commands = (await Promise.all(results)).map((result) => result.command)
    expect(commands).toEqual(['BEGIN', 'INSERT', 'INSERT', 'COMMIT'])
    client.release()
    expect(await numbers()).toEqual([1, 2, 3])
  })

  it('gives many simultaneous transactions one after the other', async () => {
    await pool.query('insert into numbers values (0)')
    const increment = async () => {
      const client = await pool.connect()
      await client.query('begin')
      const { rows } = await client.query<{ n: number }>('select n from numbers')
      await client.query('update numbers set n = $1', [(rows[0]?.n ?? 0) + 1])
      await client.query('commit')
      client.release()
    }
    await Promise.all(Array.from({ length: 25 }, increment))
    expect(await numbers()).toEqual([25])
  })

  it('rolls back what a released client left open, and frees the session', async () => {
    const client = await pool.connect()
    await client.query('begin')
    await client.query('insert into numbers values (1)')
    client.release()
    client.release()
    expect(await numbers()).toEqual([])
    await expect(client.query('select 1')).rejects.toThrow(/the client was released/)
  })

  it('rolls back a transaction opened on the pool itself, which nobody could end', async () => {
    await pool.query('begin')
    await pool.query('insert into numbers values (1)')
    const { rows } = await pool.query('select pg_current_xact_id_if_assigned() as open')
    expect(rows).toEqual([{ open: null }])
    expect(await numbers()).toEqual([1])
  })

  it('rolls back a transaction that is left idle, so that it cannot block the others for ever', async () => {
    const client = await pool.connect()
    await client.query('begin')
    await client.query('insert into numbers values (1)')
    expect(await numbers()).toEqual([])
    await expect(client.query('commit')).rejects.toThrow(/issued nothing for 1000 ms and was rolled back/)
    client.release()
  })

  it('keeps an aborted transaction until it ends, and reports its commit as a rollback', async () => {
    const client = await pool.connect()
    await client.query('begin')
    await expect(client.query('select nonsense')).rejects.toMatchObject({ code: '42703' })
    await expect(client.query('select 1')).rejects.toMatchObject({ code: '25P02' })
    expect((await client.query('commit')).command).toBe('ROLLBACK')
    client.release()
    expect(await numbers()).toEqual([])
  })

  it('refuses use of the pool from inside a transaction instead of waiting for itself', async () => {
    await expect(insideTransaction(() => pool.query('select 1'))).rejects.toThrow(/nested use/)
    expect(await numbers()).toEqual([])
  })

  it('gives errors with the fields of node-postgres', async () => {
    await pool.query('create table once (id integer primary key)')
    await pool.query('insert into once values (1)')
    await expect(pool.query('insert into once values ($1)', [1])).rejects.toMatchObject({
      code: '23505',
      constraint: 'once_pkey',
      table: 'once',
    })
  })

  it('takes undefined as null, and several statements in one text without parameters', async () => {
    expect((await pool.query('select $1::text is null as yes', [undefined])).rows).toEqual([{ yes: true }])
    const result = await pool.query('insert into numbers values (1); insert into numbers values (2), (3)')
    expect(result).toMatchObject({ command: 'INSERT', rowCount: 2 })
    expect(await numbers()).toEqual([1, 2, 3])
  })

  it('delivers notifications to the clients that listen, after the commit of the sender', async () => {
    const heard: string[] = []
    const listener = await pool.connect()
    const deaf = await pool.connect()
    listener.on('notification', ({ channel, payload }) => heard.push(`${channel}: ${payload}`))
    deaf.on('notification', () => heard.push('deaf'))
    await listener.query('-- jobs\nLISTEN Jobs;')
    await listener.query('listen "Jobs""x"')
    const sender = await pool.connect()
    await sender.query('begin')
    await sender.query("select pg_notify('jobs', $1)", ['inside'])
    await sender.query('select 1')
    expect(heard).toEqual([])
    await sender.query('commit')
    await pool.query('notify "Jobs""x", \'ö\'')
    await until(async () => heard.length === 2)
    expect(heard).toEqual(['jobs: inside', 'Jobs"x: ö'])
    for (const client of [listener, deaf, sender]) client.release()
    await until(async () => (await pool.query('select pg_listening_channels() as name')).rows.length === 0)
    await pool.query("select pg_notify('jobs', 'late')")
    expect(heard).toHaveLength(2)
  })

  it('keeps listening while another client still does', async () => {
    const heard: (string | undefined)[] = []
    const [stays, goes] = [await pool.connect(), await pool.connect()]
    stays.on('notification', ({ payload }) => heard.push(payload))
    for (const client of [stays, goes]) await client.query('listen shared')
    goes.release()
    await pool.query('select 1')
    await pool.query("notify shared, 'still'")
    await until(async () => heard.length === 1)
    expect(heard).toEqual(['still'])
    stays.release()
  })

  it('does not starve timers while statements follow each other without a pause', async () => {
    let ticks = 0
    const timer = setInterval(() => ticks++, 1)
    const writes = Array.from({ length: 500 }, (_, n) => pool.query('insert into numbers values ($1)', [n]))
    await Promise.all(writes)
    clearInterval(timer)
    expect(ticks).toBeGreaterThan(5)
  })

  it('refuses statements after its end, frees the folder, and ends in spite of a forgotten transaction', async () => {
    const other = await freshDataFolder()
    const short = await EmbeddedPool.open({ dataFolder: other.path, idleInTransactionMs: 200 })
    const client = await short.connect()
    await client.query('begin')
    await Promise.all([short.end(), short.end()])
    await expect(short.query('select 1')).rejects.toThrow(/after calling end on the pool/)
    await expect(short.connect()).rejects.toThrow(/has been ended/)
    const again = await EmbeddedPool.open({ dataFolder: other.path })
    await again.end()
    await other.remove()
  })
})
