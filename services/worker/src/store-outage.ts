// A store that is down says nothing about the job that noticed: the job waits for it and starts over, instead of using up
// its tries. Every handler may start over at any point.
import { setTimeout as sleep } from 'node:timers/promises'
import type { Records } from '@ductwright/records/records'
import { isUnavailable } from '@ductwright/records/unavailable'
import type { Logger } from 'pino'

const LOOK_EVERY_MS = 500

export async function throughOutages(
  parts: { readonly records: Records; readonly log: Logger },
  signal: AbortSignal | null,
  work: () => Promise<void>,
): Promise<void> {
  while (true) {
    try {
      return await work()
    } catch (error) {
      // With the store answering, something else was lost or the outage is over: the queue's own retry is for that.
      if (!isUnavailable(error) || (await answers(parts.records))) throw error
      parts.log.warn({ err: error }, 'the store is down; waiting for it')
    }
    while (!(await answers(parts.records))) {
      signal?.throwIfAborted()
      await sleep(LOOK_EVERY_MS)
    }
  }
}

const answers = (records: Records): Promise<boolean> =>
  records.ping().then(
    () => true,
    () => false,
  )
