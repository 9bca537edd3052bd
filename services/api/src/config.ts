// What the API process reads from its environment. Everything wrong is said at once, and a value that may hold a
// password is never repeated.
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import { z } from 'zod'
import { type ApiSettings, defaultApiSettings } from './settings.js'

export interface ApiConfig {
  readonly host: string
  readonly port: number
  /** null only where it is not required: beside the worker in one process with the embedded store. */
  readonly databaseUrl: string | null
  /** null: the jobs live in the same Postgres. */
  readonly redisUrl: string | null
  /** Folder of catalogue tables loaded at start; null: the one in the store, or the bundled one when there is none. */
  readonly catalogueFolder: string | null
  readonly logLevel: string
  readonly settings: ApiSettings
}

/** Values that may carry a password. */
const SECRET = new Set(['DATABASE_URL', 'REDIS_URL'])

const whole = (from: number, to: number, otherwise: number) => {
  const rule = `must be a whole number from ${from} to ${to}`
  return z.coerce.number(rule).int(rule).min(from, rule).max(to, rule).default(otherwise)
}

const address = (schemes: string, pattern: RegExp) =>
  z.url({ protocol: pattern, error: `must be an address that starts with ${schemes}` })

const environment = z.object({
  HOST: z.string().min(1).default('127.0.0.1'),
  PORT: whole(0, 65_535, 8080),
  DATABASE_URL: address('postgres:// or postgresql://', /^postgres(ql)?$/).optional(),
  REDIS_URL: address('redis:// or rediss://', /^rediss?$/).optional(),
  CATALOGUE_FOLDER: z.string().min(1).optional(),
  LOG_LEVEL: z
    .enum(
      ['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'],
      'must be fatal, error, warn, info, debug, trace or silent',
    )
    .default('info'),
  BODY_LIMIT_BYTES: whole(1024, 16 * 1024 * 1024, defaultApiSettings.bodyLimitBytes),
  REQUESTS_PER_MINUTE: whole(1, 1_000_000, defaultApiSettings.requestsPerMinute),
  COMBINATIONS_MAX: z.coerce
    .number('must be a number above 0')
    .positive('must be a number above 0')
    .max(2 ** 53, 'must be at most 2^53')
    .default(defaultApiSettings.combinationsMax),
  SWEEP_SECONDS_MAX: whole(1, 1_000_000, defaultApiSettings.sweepSecondsMax),
  EVENT_STREAMS_MAX: whole(0, 100_000, defaultApiSettings.eventStreamsMax),
  TRUST_PROXY: z.enum(['true', 'false'], 'must be true or false').default('false'),
})

export function readApiConfig(
  env: Readonly<Record<string, string | undefined>> = process.env,
  options: { readonly databaseRequired: boolean } = { databaseRequired: true },
): ApiConfig {
  const given = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== undefined && value !== ''))
  const read = environment.safeParse(given)
  const faults = read.success ? [] : faultsOf(read.error, given)
  if (options.databaseRequired && !('DATABASE_URL' in given)) faults.push(databaseMissing)
  if (!read.success || faults.length > 0) throw new InputError('environment', faults)
  return configOf(read.data)
}

const databaseMissing: Fault = {
  pointer: '/DATABASE_URL',
  rule: 'required',
  value: '(not set)',
  message:
    'DATABASE_URL is required: the address of the Postgres server shared with the workers; for one process without a server use `serve`',
}

function configOf(values: z.infer<typeof environment>): ApiConfig {
  return {
    host: values.HOST,
    port: values.PORT,
    databaseUrl: values.DATABASE_URL ?? null,
    redisUrl: values.REDIS_URL ?? null,
    catalogueFolder: values.CATALOGUE_FOLDER ?? null,
    logLevel: values.LOG_LEVEL,
    settings: {
      ...defaultApiSettings,
      bodyLimitBytes: values.BODY_LIMIT_BYTES,
      requestsPerMinute: values.REQUESTS_PER_MINUTE,
      combinationsMax: values.COMBINATIONS_MAX,
      sweepSecondsMax: values.SWEEP_SECONDS_MAX,
      eventStreamsMax: values.EVENT_STREAMS_MAX,
      trustProxy: values.TRUST_PROXY === 'true',
    },
  }
}

const faultsOf = (error: z.ZodError, given: Readonly<Record<string, unknown>>): Fault[] =>
  error.issues.map((issue) => {
    const name = String(issue.path[0])
    const value = name in given ? (SECRET.has(name) ? '(not shown)' : shown(given[name])) : '(not set)'
    return { pointer: `/${name}`, rule: issue.code, value, message: `${name} ${issue.message}; found ${value}` }
  })
