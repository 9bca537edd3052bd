// A run of a standing request from what its last whole run left: only what the changes of the catalogue since then touch is
// searched. Where that is not enough, or anything about it fails, the sweep goes on as any other: what was kept only saves
// time.
import { InputError } from '@ductwright/contract/fault'
import { figure } from '@ductwright/contract/figures'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import type { ShardFront } from '@ductwright/pipeline/shards'
import type { KeptFrontRow } from '@ductwright/records/standing-records'
import type { JobParts } from '../deps.js'
import { receiptOf } from '../receipt.js'
import { sweepInputs, type TakenOver } from '../shard-pool.js'
import { type LoadedSweep, questionOf } from '../sweep-source.js'
import { finishSweep } from './finish-sweep.js'

/**
 * False: the whole has to be searched.
 * @throws InputError when the request does not suit the catalogue any more
 */
export async function takeOver(parts: JobParts, loaded: LoadedSweep, signal: AbortSignal): Promise<boolean> {
  const { standing, createdAt: started } = loaded.request
  const kept = standing === null ? null : await parts.records.keptFront(standing.id)
  if (kept === null || kept.question !== questionOf(loaded.understood) || kept.version.model !== MODEL_VERSION)
    return false
  const found = await attempt(parts, loaded, kept, signal)
  if (found.kind === 'whole-run-needed') {
    parts.log.info({ sweep: loaded.sweep.id, reason: found.reason }, 'front not taken over')
    return false
  }
  const seconds = Math.max(0, Date.now() - Date.parse(started)) / 1000
  const work = { started, seconds, threads: 1, stages: found.stages }
  const from = { catalogue_version: kept.version.catalogue, words: searchedWords(found.front) }
  const receipt = receiptOf(work, [found.front], from)
  parts.log.info({ sweep: loaded.sweep.id, boxes: found.front.boxes }, 'front taken over')
  await finishSweep(parts, loaded, found.answer, receipt)
  return true
}

/** What was searched again, as the receipt says it. */
function searchedWords({ boxes, evaluated }: ShardFront): string {
  if (boxes === 0) return 'nothing, since no change touches it'
  const [groups, setups] = [figure('count', boxes), figure('count', evaluated)]
  return `what the changes touch, ${groups} groups of setups and ${setups} setups one by one`
}

async function attempt(
  { records, pool, settings, log }: JobParts,
  { sweep, inputs, understood }: LoadedSweep,
  kept: KeptFrontRow,
  signal: AbortSignal,
): Promise<TakenOver> {
  const catalogue = await records.getCatalogue(kept.version.catalogue)
  if (catalogue === null) return { kind: 'whole-run-needed', reason: 'the catalogue of what was kept is gone' }
  const before = { inputs: sweepInputs(understood, catalogue), front: kept.front, notes: kept.notes }
  const within = AbortSignal.any([signal, AbortSignal.timeout(settings.shardTimeoutMs)])
  try {
    return await pool.takeOver(inputs, before, within)
  } catch (error) {
    if (signal.aborted || error instanceof InputError) throw error
    log.warn({ sweep: sweep.id, err: error }, 'taking a front over failed')
    return { kind: 'whole-run-needed', reason: 'it failed' }
  }
}
