// Tells the queue about rows that are stored already, so a queue that is down only delays them: the reconciler of a worker
// finds what has no job, and workers find out about what was ended when they next renew.
import { within } from './deadline.js'
import type { ApiDeps } from './deps.js'

/** False when the queue was not reached. */
export async function enqueuePlan(deps: ApiDeps, sweepId: string): Promise<boolean> {
  try {
    await within(deps.settings.probeTimeoutMs, deps.jobs.enqueuePlan(sweepId))
    return true
  } catch (error) {
    deps.log.warn({ sweep: sweepId, err: error }, 'queue not reached; the reconciler will enqueue this sweep')
    return false
  }
}

/** The store already refuses the sweep's writes; telling the workers only saves them the rest of the work. */
export async function stopJobs(deps: ApiDeps, sweepId: string): Promise<void> {
  try {
    await within(deps.settings.probeTimeoutMs, deps.jobs.cancelSweep(sweepId))
  } catch (error) {
    deps.log.warn({ sweep: sweepId, err: error }, 'queue not reached; workers stop at their next renewal')
  }
}
