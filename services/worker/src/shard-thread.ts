// Runs inside a compute thread: prepares the sweep again from request and catalogue, once for all the shards of it, and
// does one step of the work. It hears of a cancel through shared memory, because its event loop stands still meanwhile.
import type { MessagePort } from 'node:worker_threads'
import { catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { type Fault, InputError } from '@ductwright/contract/fault'
import type { SweepRequest } from '@ductwright/contract/request'
import type { Result } from '@ductwright/contract/result'
import { answer as answerOf } from '@ductwright/pipeline/answer'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import {
  estimateSweep,
  evaluateShard,
  planShards,
  type ShardFront,
  type ShardRange,
  type SweepEstimate,
} from '@ductwright/pipeline/shards'

/** What a sweep is made of, and the hash that names both. */
export interface SweepInputs {
  readonly key: string
  readonly understood: SweepRequest
  /** Canonical content of the catalogue version. */
  readonly catalogue: string
}

export interface SweepPlan {
  readonly estimate: SweepEstimate
  readonly ranges: readonly ShardRange[]
}

export interface SweepAnswer {
  /** Canonical JSON. */
  readonly result: string
  readonly answerHash: string
  readonly outcome: Result['outcome']
}

/** Faults of the request cross the thread boundary as data: a thrown error would lose them. */
export type Told<Value> = { readonly value: Value } | { readonly faults: readonly Fault[] }

/** Progress is told at most this often. */
const PROGRESS_MS = 100

let last: { readonly key: string; readonly prepared: Prepared } | null = null

function preparedOf(inputs: SweepInputs): Prepared {
  if (last?.key !== inputs.key) {
    last = { key: inputs.key, prepared: prepare(inputs.understood, catalogueFromContent(inputs.catalogue)) }
  }
  return last.prepared
}

/** Estimate and ranges of a sweep. */
export function plan(task: { readonly inputs: SweepInputs }): Told<SweepPlan> {
  return told(() => {
    const prepared = preparedOf(task.inputs)
    const estimate = estimateSweep(prepared)
    return { estimate, ranges: planShards(prepared) }
  })
}

export function evaluate(task: {
  readonly inputs: SweepInputs
  readonly range: ShardRange
  readonly exhaustive: boolean
  readonly cancel: Int32Array<SharedArrayBuffer>
  readonly port: MessagePort
}): Told<ShardFront> {
  let next = 0
  const progress = (share: number): void => {
    const now = performance.now()
    if (now < next) return
    next = now + PROGRESS_MS
    task.port.postMessage(share)
  }
  const cancelled = (): boolean => Atomics.load(task.cancel, 0) !== 0
  return told(() => evaluateShard(preparedOf(task.inputs), task.range, { progress, cancelled }, task.exhaustive))
}

export function answer(task: {
  readonly inputs: SweepInputs
  readonly fronts: readonly ShardFront[]
}): Told<SweepAnswer> {
  return told(() => {
    const result = answerOf(preparedOf(task.inputs), task.fronts)
    return { result: canonicalJson(result), answerHash: result.answer_hash, outcome: result.outcome }
  })
}

function told<Value>(work: () => Value): Told<Value> {
  try {
    return { value: work() }
  } catch (error) {
    if (error instanceof InputError) return { faults: error.faults }
    throw error
  }
}
