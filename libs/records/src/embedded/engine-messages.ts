// What the pool's side and the database's thread say to each other. Plain data only: it is copied between threads.

export interface Statement {
  readonly id: number
  readonly text: string
  /** null: no parameters, several statements allowed */
  readonly values: readonly unknown[] | null
}

export interface StatementResult {
  readonly rows: Record<string, unknown>[]
  readonly rowCount: number | null
  readonly command: string
  /** Whether the session is in a transaction after the statement. */
  readonly inTransaction: boolean
}

/** An error with the fields node-postgres puts on it (SQLSTATE `code`, `detail`, `constraint` …). */
export interface StatementFault {
  readonly message: string
  readonly fields: Readonly<Record<string, string>>
  readonly inTransaction: boolean
}

export type ToEngine = { readonly kind: 'run'; readonly statement: Statement } | { readonly kind: 'close' }

export type FromEngine =
  | { readonly kind: 'ready' }
  | { readonly kind: 'result'; readonly id: number; readonly result: StatementResult }
  | { readonly kind: 'fault'; readonly id: number; readonly fault: StatementFault }
  | { readonly kind: 'notification'; readonly channel: string; readonly payload: string }
  | { readonly kind: 'closed' }
