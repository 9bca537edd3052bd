// What a reader refuses: its faults, or a failed test when it refuses nothing or throws anything else.
import { type Fault, InputError } from '@ductwright/contract/fault'

export function faultsOf(read: () => unknown): readonly Fault[] {
  try {
    read()
  } catch (error) {
    if (error instanceof InputError) return error.faults
    throw error
  }
  throw new Error('nothing was refused')
}

/** `pointer rule` of each fault, sorted: what is wrong, without its wording. */
export function broken(read: () => unknown): string[] {
  return faultsOf(read)
    .map((fault) => `${fault.pointer} ${fault.rule}`)
    .sort()
}
