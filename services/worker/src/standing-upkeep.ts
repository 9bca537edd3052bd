// Looks whether a standing request has to run again, and starts its run. The decision and the run are written in one
// transaction of the store; giving the run a job is left to whoever enqueues what is unfinished, so a worker that dies here
// leaves nothing half done.
import { ownPartsOf } from '@ductwright/contract/own-parts'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import type { Records } from '@ductwright/records/records'
import type { Logger } from 'pino'
import { needsConfirmation } from './mail/invitation.js'
import { withOwnParts } from './own-parts.js'
import type { WorkerSettings } from './settings.js'

export interface UpkeepParts {
  readonly records: Records
  readonly settings: WorkerSettings
  readonly log: Logger
}

/** One look; the number of runs started. */
export async function advanceStanding(parts: UpkeepParts): Promise<number> {
  const { records, settings, log } = parts
  const shared = await records.currentVersion()
  if (shared === null) return 0
  const options = {
    quietMs: settings.standingQuietMs,
    longestMs: settings.standingLongestMs,
    requireConfirmed: needsConfirmation(settings),
  }
  let started = 0
  for (const id of await records.restlessStanding({ catalogue: shared, model: MODEL_VERSION })) {
    const catalogue = await catalogueOf(parts, id, shared)
    if (catalogue === null) continue
    const run = await records.advanceStanding(id, { catalogue, model: MODEL_VERSION }, options)
    if (run === null) continue
    started += 1
    log.info({ standing: id, sweep: run.sweepId, catalogue, model: MODEL_VERSION }, 'standing request runs')
  }
  return started
}

/** The version in force for one of them: the shared catalogue, or that with its own parts; null when they no longer fit. */
async function catalogueOf({ records, log }: UpkeepParts, id: string, shared: string): Promise<string | null> {
  const row = await records.getStanding(id)
  const ownParts = row === null || row.body === '' ? null : ownPartsOf(JSON.parse(row.body))
  if (ownParts === null) return shared
  const pinned = await withOwnParts(records, shared, ownParts)
  if ('version' in pinned) return pinned.version
  if (row?.lastCause !== pinned.cause) {
    await records.noteStanding(id, pinned.cause)
    log.warn({ standing: id }, 'own parts cannot be used')
  }
  return null
}
