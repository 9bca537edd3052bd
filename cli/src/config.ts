// What `serve` reads from flags and environment; a flag wins. The API and the worker read the same environment by their
// own rules, so that one process and many are configured alike; everything wrong is said at once.
import { join, resolve } from 'node:path'
import { type ApiConfig, readApiConfig } from '@ductwright/api/config'
import type { ApiSettings } from '@ductwright/api/settings'
import { type Fault, InputError } from '@ductwright/contract/fault'
import { readWorkerConfig, type WorkerConfig } from '@ductwright/worker/config'
import type { WorkerSettings } from '@ductwright/worker/settings'

export interface ServeFlags {
  readonly port?: number
  readonly host?: string
  readonly data?: string
  readonly catalogue?: string
}

export interface ServeConfig {
  readonly host: string
  readonly port: number
  readonly logLevel: string
  readonly store: { readonly databaseUrl: string } | { readonly dataFolder: string }
  /** null: the jobs live in the store. */
  readonly redisUrl: string | null
  readonly catalogueFolder: string | null
  /** Absolute; null: mails go to a server. */
  readonly mailFolder: string | null
  readonly api: ApiSettings
  /** Links in mails lead to where the service listens unless a public address is configured. */
  worker(listening: string): WorkerSettings
}

type Environment = Readonly<Record<string, string | undefined>>

/** The API asks for a server; here the embedded store stands in for it. */
const NO_SERVER = 'postgres://embedded'

export function readServeConfig(flags: ServeFlags, env: Environment = process.env): ServeConfig {
  const { api, worker } = bothConfigs({ ...env, ...given(flags) })
  const folder = resolve(flags.data ?? (env['DATA_FOLDER'] || 'data'))
  const { mail } = worker.settings
  return {
    host: api.host,
    port: api.port,
    logLevel: api.logLevel,
    store: worker.databaseUrl === null ? { dataFolder: join(folder, 'records') } : { databaseUrl: worker.databaseUrl },
    redisUrl: api.redisUrl,
    catalogueFolder: api.catalogueFolder,
    mailFolder: mail.kind === 'folder' ? resolve(mail.folder) : null,
    api: api.settings,
    worker: (listening) => (env['PUBLIC_URL'] ? worker.settings : { ...worker.settings, publicUrl: listening }),
  }
}

function given(flags: ServeFlags): Environment {
  return {
    ...(flags.port === undefined ? {} : { PORT: String(flags.port) }),
    ...(flags.host === undefined ? {} : { HOST: flags.host }),
    ...(flags.data === undefined ? {} : { DATA_FOLDER: flags.data }),
    ...(flags.catalogue === undefined ? {} : { CATALOGUE_FOLDER: flags.catalogue }),
  }
}

/** Reads both, and reports a variable that both refuse once. */
function bothConfigs(env: Environment): { readonly api: ApiConfig; readonly worker: WorkerConfig } {
  const faults = new Map<string, Fault>()
  const api = faultsInto(faults, () => readApiConfig({ ...env, DATABASE_URL: env['DATABASE_URL'] || NO_SERVER }))
  const worker = faultsInto(faults, () => readWorkerConfig(env, { databaseRequired: false }))
  if (api === null || worker === null) throw new InputError('environment', [...faults.values()])
  return { api, worker }
}

function faultsInto<Config>(faults: Map<string, Fault>, read: () => Config): Config | null {
  try {
    return read()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    for (const fault of error.faults) faults.set(fault.pointer, fault)
    return null
  }
}
