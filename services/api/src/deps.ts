// What the API is built from. The process (main.ts, or the one-process service) opens these and closes them again.
import type { Jobs } from '@ductwright/queue/jobs'
import type { Records } from '@ductwright/records/records'
import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import type { Logger } from 'pino'
import type { ApiSettings } from './settings.js'

export interface ApiDeps {
  readonly records: Records
  readonly jobs: Jobs
  readonly settings: ApiSettings
  readonly log: Logger
  /** True once the process was told to stop: the API answers on, but is not ready for more. */
  readonly draining?: () => boolean
}

export type ApiApp = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>
