// Marks the asynchronous work that runs inside a transaction, so that a second use of a single-session pool from within
// it (which would wait for itself for ever) is refused at once with the reason.

import { AsyncLocalStorage } from 'node:async_hooks'

const scope = new AsyncLocalStorage<true>()

export function insideTransaction<T>(work: () => Promise<T>): Promise<T> {
  return scope.run(true, work)
}

export function refuseNestedUse(): void {
  if (scope.getStore() === undefined) return
  throw new Error('nested use: a statement inside a transaction must run on that transaction, not on the pool')
}
