// How a worker works, with the values it runs with when nothing is configured.
import { availableParallelism } from 'node:os'

export interface SmtpServer {
  readonly host: string
  readonly port: number
  /** TLS from the first byte (smtps), or not. */
  readonly secure: boolean
  /** Refuse to go on when the server does not offer STARTTLS. */
  readonly requireTls: boolean
  readonly auth: { readonly user: string; readonly pass: string } | null
  /** Extra certificate authority, PEM; null: the ones of the system. */
  readonly certificateAuthority: string | null
}

export type MailRoute =
  | { readonly kind: 'folder'; readonly folder: string }
  | { readonly kind: 'smtp'; readonly server: SmtpServer }

export interface WorkerSettings {
  /** Compute threads, and shard jobs taken at once. */
  readonly threads: number
  /** Most memory of one compute thread. */
  readonly threadHeapMb: number
  /** Estimated seconds of work that make a shard: short enough to lose, long enough to be worth a job. */
  readonly leaseMs: number
  /** A shard that computes for longer is taken to hang: its thread is ended and the shard tried again. */
  readonly shardTimeoutMs: number
  /** Starts of one shard before its sweep is given up. */
  readonly shardStartsMax: number
  readonly reconcileMs: number
  readonly mail: MailRoute
  /** Envelope and header sender; its domain ends every Message-ID. */
  readonly mailFrom: string
  /** Attempts of one mail before it is given up. */
  readonly mailAttemptsMax: number
  readonly mailBackoffMs: number
  readonly mailBackoffMaxMs: number
  readonly mailTimeoutMs: number
  /** Mails to one address in a day; what is above waits. */
  readonly mailsPerAddressDay: number
  /** Quiet time after a change of catalogue or models before standing requests run again. */
  readonly standingQuietMs: number
  /** Changes that never pause are looked at after this long all the same. */
  readonly standingLongestMs: number
  /** Where people reach the API; stands in confirmation links. */
  readonly publicUrl: string
}

export const defaultWorkerSettings: Omit<WorkerSettings, 'mail' | 'publicUrl'> = {
  threads: availableParallelism(),
  threadHeapMb: 2048,
  leaseMs: 10_000,
  shardTimeoutMs: 900_000,
  shardStartsMax: 5,
  reconcileMs: 10_000,
  mailFrom: 'ductwright@localhost.localdomain',
  mailAttemptsMax: 12,
  mailBackoffMs: 30_000,
  mailBackoffMaxMs: 3_600_000,
  mailTimeoutMs: 30_000,
  mailsPerAddressDay: 50,
  standingQuietMs: 60_000,
  standingLongestMs: 900_000,
}
