// Thread body: Postgres compiled to WebAssembly, in a folder. It has a thread of its own because every statement runs
// synchronously; on the main thread a long write would hold up timers, lock renewals and HTTP replies.
//
// Durability: it writes to the file system but never calls fsync. What was acknowledged survives the death of this
// process (kill -9 included), because the written pages belong to the system; a power failure may lose or damage it.

import { parentPort, workerData } from 'node:worker_threads'
import { PGlite, types } from '@electric-sql/pglite'
import type { FromEngine, Statement, StatementFault, StatementResult, ToEngine } from './engine-messages.js'

const { folder } = workerData as { readonly folder: string }
const port = parentPort
if (port === null) throw new Error('engine-thread must be started as a worker thread')

const send = (message: FromEngine): void => port.postMessage(message)

const database = await PGlite.create(folder, {
  // int8 as text, as node-postgres gives it, so that one row mapping serves both stores.
  parsers: { [types.INT8]: (text: string) => text },
})
database.onNotification((channel, payload) => send({ kind: 'notification', channel, payload }))

port.on('message', (message: ToEngine) => {
  if (message.kind === 'close') void close()
  else void run(message.statement)
})
send({ kind: 'ready' })

async function run(statement: Statement): Promise<void> {
  try {
    send({ kind: 'result', id: statement.id, result: await execute(statement) })
  } catch (error) {
    // A trap inside the WebAssembly leaves the session in an unknown state: end the thread rather than go on.
    if (error instanceof Error && error.name === 'RuntimeError') throw error
    send({ kind: 'fault', id: statement.id, fault: describe(error) })
  }
}

async function execute({ text, values }: Statement): Promise<StatementResult> {
  const result =
    values === null
      ? (await database.exec(text)).at(-1)
      : await database.query<Record<string, unknown>>(text, [...values])
  return {
    rows: result?.rows ?? [],
    rowCount: result?.rowCount ?? null,
    command: result?.command ?? '',
    inTransaction: database.isInTransaction(),
  }
}

function describe(error: unknown): StatementFault {
  const inTransaction = database.isInTransaction()
  if (!(error instanceof Error)) return { message: String(error), fields: {}, inTransaction }
  const fields: Record<string, string> = {}
  for (const name of ['severity', 'code', 'detail', 'hint', 'schema', 'table', 'column', 'constraint', 'routine']) {
    const value: unknown = Reflect.get(error, name)
    if (typeof value === 'string') fields[name] = value
  }
  return { message: error.message, fields, inTransaction }
}

async function close(): Promise<void> {
  await database.close()
  send({ kind: 'closed' })
  port?.close()
}
