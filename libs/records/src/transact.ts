// One transaction for one method of the records. Statements in it run on the transaction it is given; a statement on the
// pool from inside is refused (see transaction-scope.ts).

import type { Transaction } from 'kysely'
import type { Database, Tables } from './tables.js'
import { insideTransaction } from './transaction-scope.js'

export function transact<T>(db: Database, work: (transaction: Transaction<Tables>) => Promise<T>): Promise<T> {
  return db.transaction().execute((transaction) => insideTransaction(() => work(transaction)))
}
