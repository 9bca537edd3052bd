// Carries "stop this sweep" from the process that decides it to every process that works. A BullMQ custom event on a
// queue of its own, so that listeners read nothing else; the same on all backends. A listener remembers recent cancels,
// because a job of the sweep may be on its way to a worker when the event arrives.

import { randomUUID } from 'node:crypto'
import { setTimeout as wait } from 'node:timers/promises'
import type { QueueEventsListener } from 'bullmq'
import type { Backend } from './backend.js'
import type { JobSettings } from './job-settings.js'

const queue = 'cancels'
/** Events kept for listeners that were cut off for a while. */
const keptEvents = 1_000
const rememberedMs = 600_000
/** A lost wake-up delays a cancel by this much at most. */
const pollMs = 500

/** Between two greetings of a new listener. */
const greetingMs = 50

interface CancelEvents extends QueueEventsListener {
  cancel(event: { readonly sweepId: string; readonly at: string }): void
  hello(event: { readonly from: string }): void
}

export interface CancelListener {
  /** True when the sweep was cancelled after this job was enqueued. */
  covers(sweepId: string, enqueuedAt: number): boolean
  close(): Promise<void>
}

export class CancelSignals {
  readonly #backend: Backend
  readonly #settings: JobSettings
  readonly #producer

  constructor(backend: Backend, settings: JobSettings) {
    this.#backend = backend
    this.#settings = settings
    this.#producer = new backend.classes.QueueEventsProducer(queue, backend.asking)
    this.#producer.on('error', this.#logError)
  }

  async cancel(sweepId: string): Promise<void> {
    await this.#producer.publishEvent({ eventName: 'cancel', sweepId, at: String(Date.now()) }, keptEvents)
  }

  /** Resolves once cancels published from now on are certain to arrive. */
  async listen(onCancel: (sweepId: string) => void): Promise<CancelListener> {
    const recent = new Map<string, number>()
    const events = new this.#backend.classes.QueueEvents(queue, { ...this.#backend.working, blockingTimeout: pollMs })
    events.on('error', this.#logError)
    events.on<CancelEvents, 'cancel'>('cancel', ({ sweepId, at }) => {
      forgetOld(recent)
      recent.set(sweepId, Number(at))
      onCancel(sweepId)
    })
    await this.#greet((greeted) => events.on<CancelEvents, 'hello'>('hello', greeted))
    return {
      covers: (sweepId, enqueuedAt) => enqueuedAt <= (recent.get(sweepId) ?? Number.NEGATIVE_INFINITY),
      close: () => events.close(),
    }
  }

  close(): Promise<void> {
    return this.#producer.close()
  }

  /**
   * The reader starts at "whatever comes next", asked anew at each read, and could miss an event between two reads;
   * from its first event on it has a fixed position. So it is sent greetings until it has read one.
   */
  async #greet(onHello: (greeted: (event: { readonly from: string }) => void) => void): Promise<void> {
    const from = randomUUID()
    const heard = new Promise<boolean>((resolve) => onHello((event) => event.from === from && resolve(true)))
    const giveUpAt = Date.now() + this.#settings.connectTimeoutMs
    while (Date.now() < giveUpAt) {
      await this.#producer.publishEvent({ eventName: 'hello', from }, keptEvents)
      if (await Promise.race([heard, wait(greetingMs, false)])) return
    }
    throw new Error(`cancel events are not delivered: no answer in ${this.#settings.connectTimeoutMs} ms`)
  }

  readonly #logError = (error: Error): void => {
    this.#settings.log({ level: 'error', event: 'connection-error', queue, cause: error.message })
  }
}

function forgetOld(recent: Map<string, number>): void {
  const oldest = Date.now() - rememberedMs
  for (const [sweepId, at] of recent) if (at < oldest) recent.delete(sweepId)
}
