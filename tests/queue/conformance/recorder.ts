// Handlers that write down what they were asked to do and then do what the test gave them to do; and a wait that fails
// with what was written down so far.
import { setTimeout as wait } from 'node:timers/promises'
import type { Handlers } from '@ductwright/queue/jobs'

export interface Recorder {
  readonly handlers: Handlers
  readonly calls: string[]
  /** How often exactly this was called. */
  count(call: string): number
  until(condition: () => boolean | Promise<boolean>, limitMs?: number): Promise<void>
}

export function recorder(doing: Partial<Handlers> = {}): Recorder {
  const calls: string[] = []
  const handlers: Handlers = {
    async planSweep(sweepId, signal) {
      calls.push(`plan ${sweepId}`)
      await doing.planSweep?.(sweepId, signal)
    },
    async runShard(sweepId, index, attempt, signal) {
      calls.push(`shard ${sweepId} ${index}${attempt.lastTry ? ' last try' : ''}`)
      await doing.runShard?.(sweepId, index, attempt, signal)
    },
    async mergeSweep(sweepId, signal) {
      calls.push(`merge ${sweepId}`)
      await doing.mergeSweep?.(sweepId, signal)
    },
    async sendMail(mailId, signal) {
      calls.push(`mail ${mailId}`)
      await doing.sendMail?.(mailId, signal)
    },
    async failed(job, cause) {
      calls.push(['failed', job.kind, job.sweepId ?? job.mailId, job.index ?? '', cause].join(' '))
      await doing.failed?.(job, cause)
    },
  }
  const until: Recorder['until'] = async (condition, limitMs = 20_000) => {
    const giveUpAt = Date.now() + limitMs
    while (!(await condition())) {
      if (Date.now() > giveUpAt) throw new Error(`not within ${limitMs} ms; so far: ${calls.join(', ') || 'no calls'}`)
      await wait(10)
    }
  }
  return { handlers, calls, count: (call) => calls.filter((made) => made === call).length, until }
}

let rows = 0
/** Each test works on rows of its own. */
export const newId = (): string => `row-${process.pid}-${++rows}`

/** A signal's abort as a rejection, for handlers that would otherwise run for ever. */
export const untilAborted = (signal: AbortSignal): Promise<never> =>
  new Promise((_, reject) => signal.addEventListener('abort', () => reject(signal.reason), { once: true }))
