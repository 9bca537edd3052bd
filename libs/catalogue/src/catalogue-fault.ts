// Faults in catalogue tables. Collected over all files and thrown together, so a maintainer mends a table in one go.

/** One fault: where, which rule, what was found, and a sentence with the cure. */
export interface CatalogueFault {
  readonly file: string
  /** Line in the file, counted from 1; 0 when the fault is of the whole file. */
  readonly line: number
  /** Column name; empty when the fault is of a whole line or file. */
  readonly column: string
  /** Key of the rule broken, such as `range`, `unknown-column`, `duplicate-id`, `fan-gate`. */
  readonly rule: string
  /** The value as read, shortened. */
  readonly value: string
  readonly message: string
  /** JSON Pointer (RFC 6901) into what was sent, where that was JSON. */
  readonly pointer?: string
}

const SHOWN_FAULTS = 20

/** Everything wrong with one set of catalogue tables, at once. */
export class CatalogueError extends Error {
  readonly faults: readonly CatalogueFault[]

  constructor(faults: readonly CatalogueFault[]) {
    super(summary(faults))
    this.name = 'CatalogueError'
    this.faults = faults
  }
}

function summary(faults: readonly CatalogueFault[]): string {
  const lines = faults.slice(0, SHOWN_FAULTS).map(faultLine)
  const rest = faults.length - lines.length
  if (rest > 0) lines.push(`and ${rest} more`)
  return `The catalogue has ${faults.length} fault${faults.length === 1 ? '' : 's'}:\n${lines.join('\n')}`
}

/** A fault on one line: file:line column value: message. */
export function faultLine(fault: CatalogueFault): string {
  const inside = fault.pointer === undefined ? '' : ` ${fault.pointer}`
  const place = fault.line > 0 ? `${fault.file}:${fault.line}` : `${fault.file}${inside}`
  return `${place}${fault.column && ` ${fault.column}`}${fault.value && ` ${fault.value}`}: ${fault.message} [${fault.rule}]`
}

/** A cell for a message: quoted, one line, at most 80 characters. */
export function shownCell(value: string): string {
  const text = JSON.stringify(value)
  return text.length > 80 ? `${text.slice(0, 77)}..."` : text
}
