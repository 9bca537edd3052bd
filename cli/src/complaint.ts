// Turns whatever went wrong into lines a person can act on: one line for each fault, naming field, rule and value.
// A fault of the program itself is not dressed up: it passes through with its stack.
import { CatalogueError, faultLine } from '@ductwright/catalogue/catalogue-fault'
import { InputError } from '@ductwright/contract/fault'

/** Something put in on the command line that cannot be used, in one line. */
export class UsageError extends Error {}

/** The lines to print for an error that bad input explains; null when it does not. */
export function complaint(error: unknown): readonly string[] | null {
  if (error instanceof UsageError) return [error.message]
  if (error instanceof InputError) {
    return error.faults.map(
      (fault) => `${fault.pointer || '/'}: ${fault.message} (rule: ${fault.rule}, value: ${fault.value})`,
    )
  }
  if (error instanceof CatalogueError) return error.faults.map(faultLine)
  return null
}
