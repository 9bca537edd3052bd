// What is kept of a whole sweep, so that the same question to a changed catalogue need not be searched whole again: the
// front with the certificate of why nothing else is in it. Rows of a certificate point into the plan it was made with, so
// it is kept with a print of that plan and of no use to any other.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import type { SearchHooks } from '@ductwright/models/sweep/box-search'
import type { Certificate } from '@ductwright/models/sweep/certificate'
import { changedCombinations } from '@ductwright/models/sweep/changed-combinations'
import type { CertifiedShard, ShardFront } from '@ductwright/models/sweep/evaluate-shard'
import { type KeptOptima, Optima } from '@ductwright/models/sweep/kept-optima'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { mergeCertificates } from '@ductwright/models/sweep/merge-certificates'
import type { Plan } from '@ductwright/models/sweep/plan'
import { type ChangedFront, searchChange } from '@ductwright/models/sweep/search-change'
import type { Prepared } from './prepare.js'

/** Plain data. */
export interface KeptFront {
  readonly print: string
  readonly members: ShardFront['members']
  readonly certificate: Certificate
  /** That the whole run bounded. */
  readonly boxes: number
  readonly optima: KeptOptima
}

/** Raised whenever something else is kept, or found in another way. */
const FORM = 'ductwright-kept/2'

/** More than this share of the boxes of a whole run searched again, and a whole run, which renews what is kept, is better. */
const WORTHWHILE_SHARE = 1 / 3

/**
 * What to keep of a whole run, from all its shards.
 * @param optima that its answer found
 */
export function keptFrontOf({ plan }: Prepared, shards: readonly CertifiedShard[], optima: KeptOptima): KeptFront {
  const merged = mergeFronts(shards.map(({ front }) => front))
  const certificate = mergeCertificates(shards, merged)
  return { print: printOf(plan), members: merged.members, certificate, boxes: merged.boxes, optima }
}

/** The optima of a kept front, for an answer after a change of catalogue. */
export function optimaSince(before: Prepared, kept: KeptFront, after: Prepared): Optima {
  return new Optima(kept.optima, () => changedCombinations(before, after))
}

/**
 * The front of a question after a change of catalogue, from what was kept before it.
 * @param before the same question prepared with the catalogue that the kept front is of
 * @throws SweepCancelled when the hooks say so
 */
export function takeOverFront(before: Prepared, kept: KeptFront, after: Prepared, hooks: SearchHooks): ChangedFront {
  if (kept.print !== printOf(before.plan))
    return { kind: 'whole-run-needed', reason: 'what was kept is of another plan' }
  const { problem, plan } = before
  const { members, certificate } = kept
  return searchChange({ problem, plan, members, certificate }, after, hooks, Math.ceil(WORTHWHILE_SHARE * kept.boxes))
}

/** Of all that rows of a certificate point into: other code or other parts would make another. */
function printOf({ nodes, units, boxes }: Plan): string {
  const trees = [boxes.units, boxes.lefts, boxes.rights].map((column) => column.subarray(0, boxes.length))
  const places = new Int32Array(3 + 3 * nodes.length + 4 * units.length + 3 * boxes.length)
  places.set([nodes.length, units.length, boxes.length])
  let at = 3
  for (const { fan, motor, nozzle } of nodes) {
    places[at++] = fan
    places[at++] = motor
    places[at++] = nozzle
  }
  for (const { esc, timing, pack, arrangement } of units) {
    places[at++] = esc
    places[at++] = timing
    places[at++] = pack
    places[at++] = arrangement
  }
  for (const column of trees) {
    places.set(column, at)
    at += column.length
  }
  return sha256Hex(`${FORM} ${MODEL_VERSION} ${sha256Hex(new Uint8Array(places.buffer))}`)
}
