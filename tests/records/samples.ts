// Rows for the tests: requests, planned sweeps and mails that differ from each other by a counter.

import { createHash, randomUUID } from 'node:crypto'
import type { RunVersion } from '@ductwright/contract/standing-version'
import type { NewRequest, Records, RequestRow, ShardLease } from '@ductwright/records/records'
import type { NewStanding, StandingRow } from '@ductwright/records/standing-records'

export const catalogueVersion = 'c'.repeat(64)

export const leaseMs = 60_000

export const hash = (text: string): string => createHash('sha256').update(text).digest('hex')

export function newRequest(changes: Partial<NewRequest> = {}): NewRequest {
  const body = changes.body ?? '{"speed":"280 km/h"}'
  return {
    title: 'A fast one',
    address: 'pilot@example.org',
    body,
    bodyHash: hash(body),
    idempotencyKey: null,
    catalogueVersion,
    modelVersion: '1',
    ...changes,
  }
}

export async function accept(records: Records, changes: Partial<NewRequest> = {}): Promise<RequestRow> {
  const accepted = await records.acceptRequest(newRequest(changes))
  if (accepted.outcome !== 'new') throw new Error(`expected a new request, got ${accepted.outcome}`)
  return accepted.request
}

/** A request whose sweep is planned into shards of the given work. */
export async function planned(records: Records, works: readonly number[] = [1, 1]): Promise<RequestRow> {
  const request = await accept(records)
  await records.planSweep(
    request.sweepId,
    works.map((work, index) => ({ range: `{"from":${index}}`, work })),
  )
  return request
}

export async function leased(records: Records, sweepId: string, index: number, ms = leaseMs): Promise<ShardLease> {
  const lease = await records.leaseShard(sweepId, index, ms)
  if (lease === null) throw new Error(`shard ${index} could not be leased`)
  return lease
}

export const answer = { result: '{"front":[]}', answerHash: hash('answer'), receipt: '{"seconds":1}' }

export function newMail(address = 'pilot@example.org') {
  const id = randomUUID()
  return {
    id,
    address,
    subject: 'What you need for 280 km/h',
    messageId: `<${id}@ductwright.example>`,
    mime: `Subject: ${id}\r\n\r\nGrüße\r\n`,
  }
}

/** An answered request with one mail due; the mail's id. */
export async function mailed(records: Records, requireConfirmed = false, address = 'pilot@example.org') {
  const request = await planned(records, [1])
  const mail = newMail(address)
  await records.finishSweep(request.sweepId, answer, mail, { requireConfirmed })
  return { request, mail }
}

/** Leases end on the database's clock, so a test that needs one to have ended waits for it. */
export async function until(condition: () => Promise<boolean>): Promise<void> {
  for (let tries = 0; tries < 200; tries++) {
    if (await condition()) return
    await new Promise((resolve) => setTimeout(resolve, 25))
  }
  throw new Error('the condition did not come true in time')
}

let questions = 0

export function newStanding(changes: Partial<NewStanding> = {}): NewStanding {
  questions += 1
  const body = changes.body ?? `{"question":${questions}}`
  return {
    title: 'Tell me when it changes',
    address: `pilot-${randomUUID()}@example.org`,
    body,
    bodyHash: hash(body),
    everyDays: null,
    idempotencyKey: null,
    ...changes,
  }
}

export async function stand(records: Records, changes: Partial<NewStanding> = {}): Promise<StandingRow> {
  const accepted = await records.acceptStanding(newStanding(changes))
  if (accepted.outcome !== 'new') throw new Error(`expected a new standing request, got ${accepted.outcome}`)
  return accepted.standing
}

/** No waiting: every change is looked at in the next round. */
export const atOnce = { quietMs: 0, longestMs: 0, requireConfirmed: false }

/** Starts a run on this version, if one is due, and plans it. */
export async function run(
  records: Records,
  id: string,
  version: RunVersion,
  options = atOnce,
): Promise<RequestRow | null> {
  const started = await records.advanceStanding(id, version, options)
  if (started === null) return null
  await records.planSweep(started.sweepId, [])
  const sweep = await records.getSweep(started.sweepId)
  return records.getRequest(sweep?.requestId ?? '')
}

/** Ends a run with an answer and, where its owner does not know it, a mail. */
export async function answerRun(records: Records, row: RequestRow, answerHash: string): Promise<boolean> {
  const { toldHash = null } = (await records.getStanding(row.standing?.id ?? '')) ?? {}
  const mail = { ...newMail(row.address ?? ''), unsubscribeHash: hash(randomUUID()) }
  return records.finishSweep(row.sweepId, { ...answer, answerHash }, toldHash === answerHash ? null : mail, {
    requireConfirmed: false,
    told: toldHash,
  })
}
