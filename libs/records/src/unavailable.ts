// Tells "the store cannot serve now, try again" from a mistake in a statement, by SQLSTATE and by the system's codes.
// Source of the classes: PostgreSQL documentation, appendix A, "PostgreSQL Error Codes".

/** 08 connection, 53 resources (disk full, too many connections), 57 operator (shutdown, starting up), 58 system. */
const sqlClasses = ['08', '53', '57', '58']
const systemCodes = [
  'ECONNREFUSED',
  'ECONNRESET',
  'EPIPE',
  'ETIMEDOUT',
  'EHOSTUNREACH',
  'ENETUNREACH',
  'ENOTFOUND',
  'ENOSPC',
]
/** node-postgres gives these without a code. */
const messages = [/^Connection terminated/, /timeout exceeded when trying to connect/, /after calling end on the pool/]

export function isUnavailable(error: unknown): boolean {
  if (error instanceof AggregateError) return error.errors.some(isUnavailable)
  if (!(error instanceof Error)) return false
  const code: unknown = Reflect.get(error, 'code')
  if (typeof code === 'string' && isUnavailableCode(code)) return true
  return messages.some((message) => message.test(error.message)) || isUnavailable(error.cause)
}

function isUnavailableCode(code: string): boolean {
  return systemCodes.includes(code) || (/^[0-9A-Z]{5}$/.test(code) && sqlClasses.includes(code.slice(0, 2)))
}
