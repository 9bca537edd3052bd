// What a handler throws when another try cannot help: the job fails at once instead of using up its attempts.
import { UnrecoverableError } from 'bullmq'

export class PermanentFailure extends UnrecoverableError {}

/** True when the queue will not retry after this error, whatever attempts are left. */
export const isPermanent = (error: unknown): boolean => error instanceof UnrecoverableError
