// Connections to a Postgres server. Bounded waits everywhere: a server that has gone away becomes an error within
// seconds, which the service turns into "try again later".

import pg from 'pg'

export interface ServerOptions {
  readonly databaseUrl: string
  /** Schema in which unqualified names are looked up; the records themselves qualify every name. */
  readonly searchPath: string
}

export function serverPool({ databaseUrl, searchPath }: ServerOptions): pg.Pool {
  const pool = new pg.Pool({
    connectionString: withSearchPath(databaseUrl, searchPath),
    application_name: 'ductwright',
    max: 16,
    keepAlive: true,
    keepAliveInitialDelayMillis: 10_000,
    connectionTimeoutMillis: 5_000,
    idle_in_transaction_session_timeout: 30_000,
  })
  pool.setMaxListeners(0)
  // An idle connection that the server closes is not a fault of any statement; without a listener it ends the process.
  pool.on('error', () => undefined)
  // The same while a client is out: its statement is rejected, which is how the fault is told.
  pool.on('connect', (client) => client.on('error', () => undefined))
  return pool
}

/** As a start-up option, so that no statement can run before it holds; options given in the address are kept. */
function withSearchPath(databaseUrl: string, searchPath: string): string {
  const url = new URL(databaseUrl)
  const given = url.searchParams.get('options')
  url.searchParams.set('options', `${given === null ? '' : `${given} `}-c search_path=${searchPath}`)
  return url.href
}
