// JSON logs without addresses: bodies are never logged, queries are cut from URLs (a confirmation link carries a token),
// and whatever looks like a mail address in a message or an error is masked.
import { type DestinationStream, type Logger, pino, stdSerializers } from 'pino'

const ADDRESS = /[^\s<>"'@,;]+@[^\s<>"'@,;]+/g

export const masked = (text: string): string => text.replace(ADDRESS, '[address]')

export function createLog(name: string, level: string, destination?: DestinationStream): Logger {
  const options = {
    name,
    level,
    redact: { paths: ['address', '*.address', 'to', '*.to', 'token', '*.token'], censor: '[redacted]' },
    serializers: { err: maskedError },
    hooks: {
      logMethod(this: Logger, args: Parameters<Logger['info']>, method: Logger['info']): void {
        method.apply(this, args.map((part) => (typeof part === 'string' ? masked(part) : part)) as typeof args)
      },
    },
  }
  return destination === undefined ? pino(options) : pino(options, destination)
}

function maskedError(error: Error): unknown {
  const { type, message, stack } = stdSerializers.err(error)
  return { type, message: masked(message), stack: masked(stack) }
}
