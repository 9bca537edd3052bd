// What the store keeps of a finished shard: its front, and for the receipt how long it took.
import type { ShardFront, ShardRange } from '@ductwright/pipeline/shards'

export interface ShardRecord {
  readonly front: ShardFront
  readonly seconds: number
}

export const writeShardRecord = (record: ShardRecord): string => JSON.stringify(record)
export const readShardRecord = (text: string): ShardRecord => JSON.parse(text) as ShardRecord

export const writeRange = (range: ShardRange): string => JSON.stringify(range)
export const readRange = (text: string): ShardRange => JSON.parse(text) as ShardRange
