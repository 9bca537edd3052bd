// A Postgres for tests: the one given by TEST_DATABASE_URL, else a container if an engine answers, else the server
// programs of this machine (15 or later) on a free port of the loopback interface; null, loudly, when there is none.

import { execFile } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { chown, mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import pg from 'pg'
import { readServerConfig } from './config.js'
import { engineAnswers } from './container-engine.js'
import { GuardedProcess } from './guarded-process.js'
import { type Account, findProgram, freePort, postgresFolders, unprivilegedAccount } from './local-program.js'
import { sayMissing, type TestServer } from './test-server.js'

const run = promisify(execFile)

export interface TestPostgres extends TestServer {
  /** Creates an empty database and gives its address; dropped when the server is stopped. */
  freshDatabase(): Promise<string>
}

export async function testPostgres(): Promise<TestPostgres | null> {
  const config = readServerConfig()
  if (config.databaseUrl !== null) {
    return withDatabases({ url: config.databaseUrl, from: 'environment', stop: async () => undefined, faults: null })
  }
  if (await engineAnswers(config)) return withDatabases(await startContainer())
  const initdb = await findProgram('initdb', [...config.path, ...(await postgresFolders())])
  if (initdb === null) return sayMissing('POSTGRES', 'Install postgresql (15 or later), or set TEST_DATABASE_URL.')
  return withDatabases(await startProgram(dirname(initdb)))
}

async function startContainer(): Promise<TestServer> {
  const { PostgreSqlContainer } = await import('@testcontainers/postgresql')
  const container = await new PostgreSqlContainer('postgres:15-alpine').start()
  return {
    url: container.getConnectionUri(),
    from: 'container',
    stop: async () => void (await container.stop()),
    faults: null,
  }
}

async function startProgram(programs: string): Promise<TestServer> {
  const account = await unprivilegedAccount()
  for (let attempt = 0; attempt < 3; attempt++) {
    const port = await freePort()
    const folder = await newCluster(programs, account)
    const url = `postgres://ductwright@127.0.0.1:${port}/postgres`
    const process = await GuardedProcess.launch(
      {
        command: join(programs, 'postgres'),
        args: ['-D', folder, '-p', String(port), '-k', folder, '-c', 'listen_addresses=127.0.0.1', '-c', 'fsync=off'],
        ...account,
        folder,
        softSignal: 'SIGINT',
        hardSignal: 'SIGQUIT',
      },
      () => answersQuery(url),
    )
    if (process !== null) return { url, from: 'binary', stop: () => process.stop(), faults: process }
  }
  throw new Error('postgres did not start in three attempts')
}

async function newCluster(programs: string, account: Account): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'ductwright-postgres-'))
  if (account.uid !== null && account.gid !== null) await chown(folder, account.uid, account.gid)
  const owner = account.uid === null || account.gid === null ? {} : { uid: account.uid, gid: account.gid }
  const options = ['-U', 'ductwright', '--auth=trust', '--no-sync', '-E', 'UTF8', '--locale=C']
  await run(join(programs, 'initdb'), ['-D', folder, ...options], { ...owner, cwd: folder })
  return folder
}

function withDatabases(server: TestServer): TestPostgres {
  const names: string[] = []
  const drop = async () => {
    for (const name of names) await administer(server.url, `drop database if exists ${name} with (force)`)
  }
  return {
    ...server,
    async freshDatabase() {
      const name = `ductwright_${randomBytes(6).toString('hex')}`
      await administer(server.url, `create database ${name}`)
      names.push(name)
      const url = new URL(server.url)
      url.pathname = `/${name}`
      return url.href
    },
    async stop() {
      // Only a server that stays needs it; a stopped one may be broken on purpose.
      if (server.from === 'environment') await drop()
      await server.stop()
    },
  }
}

async function administer(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query(statement)
  } finally {
    await client.end()
  }
}

async function answersQuery(url: string): Promise<boolean> {
  try {
    await administer(url, 'select 1')
    return true
  } catch {
    return false
  }
}
