// Runs inside a compute thread: prepares the sweep again from request and catalogue, once for all the shards of it, and
// does one step of the work. It hears of a cancel through shared memory, because its event loop stands still meanwhile.
import type { MessagePort } from 'node:worker_threads'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { type Fault, InputError } from '@ductwright/contract/fault'
import type { SweepRequest } from '@ductwright/contract/request'
import type { Result } from '@ductwright/contract/result'
import { certifyShard } from '@ductwright/models/sweep/evaluate-shard'
import { type KeptOptima, Optima } from '@ductwright/models/sweep/kept-optima'
import { type AnswerAids, answer as answerOf } from '@ductwright/pipeline/answer'
import { keptFrontOf, optimaSince, takeOverFront } from '@ductwright/pipeline/kept-front'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import {
  estimateSweep,
  evaluateShard,
  flyPilot,
  planShards,
  type ShardFront,
  type ShardRange,
  type SweepEstimate,
} from '@ductwright/pipeline/shards'
import { WorkedBefore } from '@ductwright/pipeline/worked-before'
import { packed, unpackedCertificate, unpackedFront } from './kept-bytes.js'
import { type Stage, StageClock } from './stage-clock.js'

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
  /** For the next run of the question, where certificates came with the fronts. */
  readonly keptFront: Uint8Array | null
  /** Physics that was worked out for it, as text for the next run. */
  readonly notes: string
}

/** A shard's front, and its packed certificate where one was asked for. */
export interface CertifiedFront {
  readonly front: ShardFront
  readonly certificate: Uint8Array | null
}

/** What an earlier run of the same question left. */
export interface KeptRun {
  /** The question to the catalogue that the front is of. */
  readonly inputs: SweepInputs
  readonly front: Uint8Array
  readonly notes: string
}

export type TakenOver =
  | {
      readonly kind: 'found'
      readonly front: ShardFront
      readonly answer: SweepAnswer
      readonly stages: readonly Stage[]
    }
  | { readonly kind: 'whole-run-needed'; readonly reason: string }

/** Faults of the request cross the thread boundary as data: a thrown error would lose them. */
export type Told<Value> = { readonly value: Value } | { readonly faults: readonly Fault[] }

/** Progress is told at most this often. */
const PROGRESS_MS = 100

let last: { readonly key: string; readonly prepared: Prepared } | null = null

function preparedOf(inputs: SweepInputs): Prepared {
  if (last?.key !== inputs.key) {
    last = { key: inputs.key, prepared: prepare(inputs.understood, catalogueOf(inputs.catalogue)) }
  }
  return last.prepared
}

/** The last ones read: after a change of catalogue many requests ask for the one before and the one in force. */
const read: { readonly content: string; readonly catalogue: Catalogue }[] = []
const READ_MOST = 2

function catalogueOf(content: string): Catalogue {
  const known = read.find((other) => other.content === content)
  if (known !== undefined) return known.catalogue
  const catalogue = catalogueFromContent(content)
  read.unshift({ content, catalogue })
  read.length = Math.min(read.length, READ_MOST)
  return catalogue
}

/** Estimate and ranges of a sweep. */
export function plan(task: { readonly inputs: SweepInputs }): Told<SweepPlan> {
  return told(() => {
    const prepared = preparedOf(task.inputs)
    const pilot = flyPilot(prepared.problem, prepared.plan)
    return { estimate: estimateSweep(prepared, pilot), ranges: planShards(prepared, pilot) }
  })
}

export function evaluate(task: {
  readonly inputs: SweepInputs
  readonly range: ShardRange
  readonly how: 'search' | 'certify' | 'exhaust'
  readonly cancel: Int32Array<SharedArrayBuffer>
  readonly port: MessagePort
}): Told<CertifiedFront> {
  let next = 0
  const progress = (share: number): void => {
    const now = performance.now()
    if (now < next) return
    next = now + PROGRESS_MS
    task.port.postMessage(share)
  }
  const hooks = { progress, cancelled: isCancelled(task) }
  return told(() => {
    const prepared = preparedOf(task.inputs)
    if (task.how === 'certify') {
      const { front, certificate } = certifyShard(prepared.problem, prepared.plan, task.range, hooks)
      return { front, certificate: packed(certificate) }
    }
    return { front: evaluateShard(prepared, task.range, hooks, task.how === 'exhaust'), certificate: null }
  })
}

export function answer(task: {
  readonly inputs: SweepInputs
  readonly shards: readonly CertifiedFront[]
  readonly cancel: Int32Array<SharedArrayBuffer>
}): Told<SweepAnswer> {
  return told(() => {
    const prepared = preparedOf(task.inputs)
    const optima = new Optima()
    const fronts = task.shards.map(({ front }) => front)
    const answer = answered(prepared, fronts, { cancelled: isCancelled(task), optima })
    return { ...answer, keptFront: toKeep(prepared, task.shards, optima.found) }
  })
}

/** The answer from what an earlier run left, where that is enough. */
export function takeOver(task: {
  readonly inputs: SweepInputs
  readonly kept: KeptRun
  readonly cancel: Int32Array<SharedArrayBuffer>
}): Told<TakenOver> {
  return told(() => {
    const cancelled = isCancelled(task)
    const clock = new StageClock()
    const kept = unpackedFront(task.kept.front)
    if (kept === null) return { kind: 'whole-run-needed', reason: 'what was kept cannot be read' }
    const before = clock.timed('prepare', () => preparedOf(task.kept.inputs))
    const after = clock.timed('prepare', () => preparedOf(task.inputs))
    const found = clock.timed('evaluate', () => takeOverFront(before, kept, after, { settled() {}, cancelled }))
    if (found.kind === 'whole-run-needed') return found
    const answer = clock.timed('answer', () => {
      const optima = optimaSince(before, kept, after)
      return answered(after, [found.front], { cancelled, notes: WorkedBefore.from(task.kept.notes), optima })
    })
    return { kind: 'found', front: found.front, answer: { ...answer, keptFront: null }, stages: clock.stages }
  })
}

function answered(prepared: Prepared, fronts: readonly ShardFront[], aids: AnswerAids): Omit<SweepAnswer, 'keptFront'> {
  const notes = aids.notes ?? WorkedBefore.none()
  const result = answerOf(prepared, fronts, { ...aids, notes })
  const { answer_hash: answerHash, outcome } = result
  return { result: canonicalJson(result), answerHash, outcome, notes: notes.used() }
}

/** null unless every shard came with its certificate. */
function toKeep(prepared: Prepared, shards: readonly CertifiedFront[], optima: KeptOptima): Uint8Array | null {
  const certified = shards.flatMap(({ front, certificate }) =>
    certificate === null ? [] : [{ front, certificate: unpackedCertificate(certificate) }],
  )
  if (certified.length === 0 || certified.length < shards.length) return null
  return packed(keptFrontOf(prepared, certified, optima))
}

const isCancelled = (task: { readonly cancel: Int32Array<SharedArrayBuffer> }) => (): boolean =>
  Atomics.load(task.cancel, 0) !== 0

function told<Value>(work: () => Value): Told<Value> {
  try {
    return { value: work() }
  } catch (error) {
    if (error instanceof InputError) return { faults: error.faults }
    throw error
  }
}
