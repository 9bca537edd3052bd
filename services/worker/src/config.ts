// What a worker reads from its environment. Everything wrong is said at once, and a value that may hold a password is
// never repeated.
import { readFileSync } from 'node:fs'
import { isIP } from 'node:net'
import { join } from 'node:path'
import { singleAddress } from '@ductwright/contract/address'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import { z } from 'zod'
import { defaultWorkerSettings, type MailRoute, type SmtpServer, type WorkerSettings } from './settings.js'

export interface WorkerConfig {
  /** null only where it is not required: beside the API in one process with the embedded store. */
  readonly databaseUrl: string | null
  /** null: the jobs live in the same Postgres. */
  readonly redisUrl: string | null
  readonly logLevel: string
  /** Rewritten while the worker can reach the store; a health check looks at its age. */
  readonly heartbeatFile: string | null
  readonly settings: WorkerSettings
}

/** Values that may carry a password. */
const SECRET = new Set(['DATABASE_URL', 'REDIS_URL', 'SMTP_URL'])
const LOOPBACK = /^(localhost|127\.\d+\.\d+\.\d+|\[?::1\]?)$/

const whole = (from: number, to: number, otherwise: number) => {
  const rule = `must be a whole number from ${from} to ${to}`
  return z.coerce.number(rule).int(rule).min(from, rule).max(to, rule).default(otherwise)
}

const url = (schemes: string, protocol: RegExp) =>
  z.url({ protocol, error: `must be an address that starts with ${schemes}` })

const mailAddress = z.string().refine(isSingleAddress, 'must be exactly one plain mail address')

const { threads, shardStartsMax, mailFrom, mailAttemptsMax, threadHeapMb } = defaultWorkerSettings
const { mailsPerAddressDay, standingQuietMs, standingLongestMs } = defaultWorkerSettings

const environment = z.object({
  DATABASE_URL: url('postgres:// or postgresql://', /^postgres(ql)?$/).optional(),
  REDIS_URL: url('redis:// or rediss://', /^rediss?$/).optional(),
  LOG_LEVEL: z
    .enum(
      ['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'],
      'must be fatal, error, warn, info, debug, trace or silent',
    )
    .default('info'),
  HEARTBEAT_FILE: z.string().optional(),
  THREADS: whole(1, 256, threads),
  THREAD_HEAP_MB: whole(64, 65_536, threadHeapMb),
  SHARD_STARTS_MAX: whole(1, 100, shardStartsMax),
  DATA_FOLDER: z.string().default('data'),
  SMTP_URL: url('smtp:// or smtps://', /^smtps?$/).optional(),
  SMTP_REQUIRE_TLS: z.enum(['true', 'false'], 'must be true or false').default('false'),
  SMTP_CA_FILE: z.string().refine(isReadable, 'must name a readable PEM file').optional(),
  MAIL_FROM: mailAddress.optional(),
  MAIL_ATTEMPTS_MAX: whole(1, 1000, mailAttemptsMax),
  MAILS_PER_ADDRESS_DAY: whole(1, 100_000, mailsPerAddressDay),
  STANDING_QUIET_SECONDS: whole(0, 86_400, standingQuietMs / 1000),
  PUBLIC_URL: url('http:// or https://', /^https?$/).optional(),
})

type Values = z.infer<typeof environment>

export function readWorkerConfig(
  env: Readonly<Record<string, string | undefined>> = process.env,
  options: { readonly databaseRequired: boolean } = { databaseRequired: true },
): WorkerConfig {
  const given = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== undefined && value !== ''))
  const read = environment.safeParse(given)
  const faults = [...(read.success ? [] : faultsOf(read.error, given)), ...togetherFaults(given, options)]
  if (!read.success || faults.length > 0) throw new InputError('environment', faults)
  return configOf(read.data)
}

/** Rules over more than one variable. */
function togetherFaults(
  given: Readonly<Record<string, unknown>>,
  options: { readonly databaseRequired: boolean },
): Fault[] {
  const missing: readonly (readonly [string, boolean, string])[] = [
    [
      'DATABASE_URL',
      options.databaseRequired,
      'is required: the address of the Postgres server shared with the API; for one process without a server use `serve`',
    ],
    ['MAIL_FROM', 'SMTP_URL' in given, 'is required with SMTP_URL: the address mails come from'],
    ['PUBLIC_URL', 'SMTP_URL' in given, 'is required with SMTP_URL: it stands in the links that confirm an address'],
  ]
  return missing
    .filter(([name, needed]) => needed && !(name in given))
    .map(([name, , rule]) => ({
      pointer: `/${name}`,
      rule: 'required',
      value: '(not set)',
      message: `${name} ${rule}`,
    }))
}

function configOf(values: Values): WorkerConfig {
  const mail = mailRoute(values)
  return {
    databaseUrl: values.DATABASE_URL ?? null,
    redisUrl: values.REDIS_URL ?? null,
    logLevel: values.LOG_LEVEL,
    heartbeatFile: values.HEARTBEAT_FILE ?? null,
    settings: {
      ...defaultWorkerSettings,
      threads: values.THREADS,
      threadHeapMb: values.THREAD_HEAP_MB,
      shardStartsMax: values.SHARD_STARTS_MAX,
      mail,
      mailFrom: values.MAIL_FROM ?? mailFrom,
      mailAttemptsMax: values.MAIL_ATTEMPTS_MAX,
      mailsPerAddressDay: values.MAILS_PER_ADDRESS_DAY,
      standingQuietMs: values.STANDING_QUIET_SECONDS * 1000,
      standingLongestMs: Math.max(standingLongestMs, values.STANDING_QUIET_SECONDS * 1000),
      publicUrl: (values.PUBLIC_URL ?? 'http://127.0.0.1').replace(/\/+$/, ''),
    },
  }
}

function mailRoute(values: Values): MailRoute {
  if (values.SMTP_URL === undefined) return { kind: 'folder', folder: join(values.DATA_FOLDER, 'mail') }
  const authority = values.SMTP_CA_FILE === undefined ? null : readFileSync(values.SMTP_CA_FILE, 'utf8')
  return { kind: 'smtp', server: smtpServer(new URL(values.SMTP_URL), values.SMTP_REQUIRE_TLS === 'true', authority) }
}

/** A password is never sent over a plain connection to another machine, so credentials require TLS there. */
function smtpServer(address: URL, requireTls: boolean, certificateAuthority: string | null): SmtpServer {
  const secure = address.protocol === 'smtps:'
  const host = address.hostname.replace(/^\[(.*)\]$/, '$1')
  const user = decodeURIComponent(address.username)
  const auth = user === '' ? null : { user, pass: decodeURIComponent(address.password) }
  const port = address.port === '' ? (secure ? 465 : 587) : Number(address.port)
  const local = LOOPBACK.test(isIP(host) === 6 ? `[${host}]` : host)
  return {
    host,
    port,
    secure,
    requireTls: !secure && (requireTls || (auth !== null && !local)),
    auth,
    certificateAuthority,
  }
}

const faultsOf = (error: z.ZodError, given: Readonly<Record<string, unknown>>): Fault[] =>
  error.issues.map((issue) => {
    const name = String(issue.path[0])
    const value = name in given ? (SECRET.has(name) ? '(not shown)' : shown(given[name])) : '(not set)'
    return { pointer: `/${name}`, rule: issue.code, value, message: `${name} ${issue.message}; found ${value}` }
  })

function isSingleAddress(text: string): boolean {
  try {
    return singleAddress(text) !== ''
  } catch {
    return false
  }
}

function isReadable(file: string): boolean {
  try {
    return readFileSync(file, 'utf8').includes('-----BEGIN CERTIFICATE-----')
  } catch {
    return false
  }
}
