// The only place where the test servers read the environment.

export interface ServerConfig {
  /** A Postgres to use instead of starting one; its user must be allowed to create databases. */
  readonly databaseUrl: string | null
  /** A Redis to use instead of starting one. */
  readonly redisUrl: string | null
  /** Where a missing server is a failure rather than a loud skip. */
  readonly ci: boolean
  readonly path: readonly string[]
  readonly dockerHost: string | null
  readonly home: string | null
  readonly runtimeFolder: string | null
}

export function readServerConfig(): ServerConfig {
  const { env } = process
  const text = (name: string): string | null => env[name] || null
  return {
    databaseUrl: text('TEST_DATABASE_URL'),
    redisUrl: text('TEST_REDIS_URL'),
    ci: env['CI'] === 'true' || env['CI'] === '1',
    path: (env['PATH'] ?? '').split(process.platform === 'win32' ? ';' : ':').filter(Boolean),
    dockerHost: text('DOCKER_HOST'),
    home: text('HOME'),
    runtimeFolder: text('XDG_RUNTIME_DIR'),
  }
}
