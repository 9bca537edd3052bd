// What the store keeps of a finished shard: its front, for the receipt how long it took, and of a run that the next one may
// take over from its certificate, packed.
import type { ShardFront, ShardRange } from '@ductwright/pipeline/shards'

export interface ShardRecord {
  readonly front: ShardFront
  readonly seconds: number
  readonly certificate: Uint8Array | null
}

export function writeShardRecord({ certificate, ...rest }: ShardRecord): string {
  const text = certificate === null ? null : Buffer.from(certificate).toString('base64')
  return JSON.stringify({ ...rest, certificate: text })
}

export function readShardRecord(text: string): ShardRecord {
  const { certificate, ...rest } = JSON.parse(text) as Omit<ShardRecord, 'certificate'> & {
    certificate?: string | null
  }
  return { ...rest, certificate: certificate == null ? null : Buffer.from(certificate, 'base64') }
}

export const writeRange = (range: ShardRange): string => JSON.stringify(range)
export const readRange = (text: string): ShardRange => JSON.parse(text) as ShardRange
