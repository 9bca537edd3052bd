// The certificate of a whole sweep from those of its shards. A shard's member that another shard's beat is no witness any more,
// but the one that beat it, or equals it in every compared value, is: dominance carries on.
import type { Certificate } from './certificate.js'
import { witnessReason } from './certificate.js'
import type { CertifiedShard, ShardFront } from './evaluate-shard.js'

/** @throws RangeError when `merged` is not the front of these shards */
export function mergeCertificates(shards: readonly CertifiedShard[], merged: ShardFront): Certificate {
  const rows = shards.reduce((sum, { certificate }) => sum + certificate.reasons.length, 0)
  const whole: Certificate = {
    nodes: new Int32Array(rows),
    boxes: new Int32Array(rows),
    lowest: new Uint16Array(rows),
    highest: new Uint16Array(rows),
    reasons: new Int32Array(rows),
  }
  let row = 0
  for (const { front, certificate } of shards) {
    whole.nodes.set(certificate.nodes, row)
    whole.boxes.set(certificate.boxes, row)
    whole.lowest.set(certificate.lowest, row)
    whole.highest.set(certificate.highest, row)
    const successors = front.members.map((member) => successorOf(member, merged))
    certificate.reasons.forEach((reason, i) => {
      whole.reasons[row + i] = reason >= 0 ? reason : witnessReason(successors[witnessReason(reason)] as number)
    })
    row += certificate.reasons.length
  }
  return whole
}

type Member = ShardFront['members'][number]

/** Place of the merged member that is, equals or beats a shard's. */
function successorOf(member: Member, merged: ShardFront): number {
  const place = merged.members.findIndex(({ cells }) => cells.every((value, i) => value <= (member.cells[i] as number)))
  if (place < 0) throw new RangeError(`no merged member is as good as ${member.number} of a shard`)
  return place
}
