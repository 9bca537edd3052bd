// What is kept of a whole sweep, so that the same question to a changed catalogue need not be searched whole again: the
// front with the certificate of why nothing else is in it. Rows of a certificate point into the plan it was made with, so
// it is kept with a print of that plan and of no use to any other. Losing it, or being unable to read it, costs time only.
import { createHash } from 'node:crypto'
import { deserialize, serialize } from 'node:v8'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import type { SearchHooks } from '@ductwright/models/sweep/box-search'
import type { Certificate } from '@ductwright/models/sweep/certificate'
import { certifyShard, type ShardFront, type ShardHooks } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { mergeCertificates } from '@ductwright/models/sweep/merge-certificates'
import type { Plan } from '@ductwright/models/sweep/plan'
import { type ChangedFront, searchChange } from '@ductwright/models/sweep/search-change'
import type { ShardRange } from '@ductwright/models/sweep/shards'
import type { Prepared } from './prepare.js'

interface KeptFront {
  readonly print: string
  readonly members: ShardFront['members']
  readonly certificate: Certificate
  /** That the whole run bounded. */
  readonly boxes: number
}

/** The certificates are large and alike from row to row: the quickest level takes them to a fifth. */
const LEVEL = 1
/** More than this share of the boxes of a whole run searched again, and a whole run, which renews what is kept, is better. */
const WORTHWHILE_SHARE = 1 / 3

/** A shard's front with its certificate, packed. */
export function certifyRange(
  { problem, plan }: Prepared,
  range: ShardRange,
  hooks: ShardHooks,
): { readonly front: ShardFront; readonly certificate: Uint8Array } {
  const { front, certificate } = certifyShard(problem, plan, range, hooks)
  return { front, certificate: packed(certificate) }
}

/** What to keep of a whole run, from all its shards. */
export function keptFrontOf(
  prepared: Prepared,
  shards: readonly { readonly front: ShardFront; readonly certificate: Uint8Array }[],
): Uint8Array {
  const merged = mergeFronts(shards.map(({ front }) => front))
  const certified = shards.map(({ front, certificate }) => ({
    front,
    certificate: unpacked(certificate) as Certificate,
  }))
  const kept: KeptFront = {
    print: printOf(prepared.plan),
    members: merged.members,
    certificate: mergeCertificates(certified, merged),
    boxes: merged.boxes,
  }
  return packed(kept)
}

/**
 * The front of a question after a change of catalogue, from what was kept before it.
 * @param before the same question prepared with the catalogue that the kept front is of
 * @throws SweepCancelled when the hooks say so
 */
export function takeOverFront(before: Prepared, bytes: Uint8Array, after: Prepared, hooks: SearchHooks): ChangedFront {
  const kept = keptFront(bytes)
  if (kept === null) return { kind: 'whole-run-needed', reason: 'what was kept cannot be read' }
  if (kept.print !== printOf(before.plan))
    return { kind: 'whole-run-needed', reason: 'what was kept is of another plan' }
  const { problem, plan } = before
  const { members, certificate } = kept
  return searchChange({ problem, plan, members, certificate }, after, hooks, Math.ceil(WORTHWHILE_SHARE * kept.boxes))
}

function keptFront(bytes: Uint8Array): KeptFront | null {
  try {
    return unpacked(bytes) as KeptFront
  } catch {
    return null
  }
}

const packed = (value: unknown): Uint8Array => deflateRawSync(serialize(value), { level: LEVEL })
const unpacked = (bytes: Uint8Array): unknown => deserialize(inflateRawSync(bytes))

/** Of all that rows of a certificate point into: other code or other parts would make another. */
function printOf({ nodes, units, boxes }: Plan): string {
  const hash = createHash('sha256').update(MODEL_VERSION)
  hash.update(Int32Array.from(nodes.flatMap(({ fan, motor, nozzle }) => [fan, motor, nozzle])))
  hash.update(Int32Array.from(units.flatMap(({ esc, timing, pack, arrangement }) => [esc, timing, pack, arrangement])))
  for (const column of [boxes.units, boxes.lefts, boxes.rights]) hash.update(column.subarray(0, boxes.length))
  return hash.digest('hex')
}
