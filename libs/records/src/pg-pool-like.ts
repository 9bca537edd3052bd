// The part of node-postgres that this project and its job queue use, as a shape. A real `pg.Pool` fits it, and so does
// the pool over the embedded database (embedded/embedded-pool.ts); everything above sees only this.

export interface PgResult<Row = Record<string, unknown>> {
  rows: Row[]
  /** null for statements that count nothing, such as BEGIN */
  rowCount: number | null
  /** Command tag of the statement: SELECT, INSERT, COMMIT … */
  command: string
}

export interface PgMessage {
  channel: string
  payload?: string
}

export interface PgQueryable {
  // biome-ignore lint/suspicious/noExplicitAny: node-postgres' own default; a caller that cares names its row type
  query<Row = any>(text: string, values?: readonly unknown[]): Promise<PgResult<Row>>
}

export interface PgClientLike extends PgQueryable {
  on(event: 'notification', listener: (message: PgMessage) => void): this
  on(event: 'error', listener: (error: Error) => void): this
  on(event: 'end', listener: () => void): this
  removeListener(event: 'notification', listener: (message: PgMessage) => void): this
  removeAllListeners(event?: string): this
  /** Gives the client back; with `true` its connection is thrown away. */
  release(destroy?: boolean): void
}

export interface PgPoolLike extends PgQueryable {
  connect(): Promise<PgClientLike>
  end(): Promise<void>
  on(event: 'error', listener: (error: Error) => void): this
  on(event: 'connect', listener: (client: PgClientLike) => void): this
  removeAllListeners(event?: string): this
  setMaxListeners(count: number): this
}
