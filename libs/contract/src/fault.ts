// Faults in what a person sent: each names the field, the rule and the value. Collected, never one at a time.

export interface Fault {
  /** JSON Pointer (RFC 6901) of the field. */
  readonly pointer: string
  /** Key of the rule broken, such as `unknown-field`, `range`, `unit`, `unknown-part`. */
  readonly rule: string
  /** The value as sent, shortened. */
  readonly value: string
  /** One sentence: what was found, what is allowed, and the cure. */
  readonly message: string
}

/** Everything wrong with one input, at once. */
export class InputError extends Error {
  readonly faults: readonly Fault[]

  constructor(what: string, faults: readonly Fault[]) {
    super(`${what}: ${faults.map((fault) => `${fault.pointer || '/'}: ${fault.message}`).join('; ')}`)
    this.name = 'InputError'
    this.faults = faults
  }
}

/** A value for an error message: one line, at most 80 characters, control characters escaped. */
export function shown(value: unknown): string {
  const plain = typeof value === 'number' || typeof value === 'bigint'
  const text = plain ? String(value) : (JSON.stringify(value) ?? String(value))
  return text.length > 80 ? `${text.slice(0, 77)}...` : text
}
