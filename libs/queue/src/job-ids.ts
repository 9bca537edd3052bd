// Names of jobs and queues. A job's id follows from the row it works on, so enqueueing a row twice cannot make two live
// jobs; payloads are those ids and nothing else. Mails have a queue of their own so that a hanging mail server never
// holds up a sweep, and shards one so that their number at once can be limited.
import type { JobKind } from './jobs.js'

/** The row a job works on. */
export interface JobRow {
  readonly kind: JobKind
  readonly sweepId?: string
  readonly index?: number
  readonly mailId?: string
}

/** What travels with a job. `last`: highest shard index below a merge, so that a cancel can name the shards. */
export type JobData = Omit<JobRow, 'kind'> & { readonly last?: number }

export type QueueName = 'sweep-steps' | 'sweep-shards' | 'mails'
export const queueNames: readonly QueueName[] = ['sweep-steps', 'sweep-shards', 'mails']

const homes: Readonly<Record<JobKind, QueueName>> = {
  'plan-sweep': 'sweep-steps',
  'merge-sweep': 'sweep-steps',
  'run-shard': 'sweep-shards',
  'send-mail': 'mails',
}

export const queueOf = (kind: JobKind): QueueName => homes[kind]

function checkedId(name: string, value: string | undefined): string {
  if (value === undefined || !/^[A-Za-z0-9_-]{1,64}$/.test(value)) {
    throw new RangeError(`${name} must be 1 to 64 letters, digits, "-" or "_", got ${JSON.stringify(value)}`)
  }
  return value
}

function checkedIndex(value: number | undefined): number {
  if (value === undefined || !Number.isSafeInteger(value) || value < 0) {
    throw new RangeError(`index must be a whole number of at least 0, got ${value}`)
  }
  return value
}

/**
 * Merges have two slots: while the merge in slot 1 runs it may ask for shards again (one was missing or damaged), and
 * those need a merge of their own after them.
 */
export type MergeSlot = 1 | 2
export const mergeSlots: readonly MergeSlot[] = [1, 2]

export function jobId(row: JobRow, slot: MergeSlot = 1): string {
  switch (row.kind) {
    case 'plan-sweep':
      return `plan-${checkedId('sweepId', row.sweepId)}`
    case 'run-shard':
      return `shard-${checkedId('sweepId', row.sweepId)}-${checkedIndex(row.index)}`
    case 'merge-sweep':
      return `merge${slot === 1 ? '' : '-again'}-${checkedId('sweepId', row.sweepId)}`
    case 'send-mail':
      return `mail-${checkedId('mailId', row.mailId)}`
  }
}
