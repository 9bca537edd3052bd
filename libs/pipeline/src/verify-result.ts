// Checks an answer from nothing but itself and the catalogue version it names, without the search that found it: every listed
// setup is worked through again, none may beat another, and no combination, of a sample or of all, may beat them. It uses the
// models and the rule of comparison, but neither the boxes nor the bounds nor the filter of the sweep.

import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { InputError, shown } from '@ductwright/contract/fault'
import type { Member, Objectives as Printed, Result } from '@ductwright/contract/result'
import { Evaluator } from '@ductwright/models/evaluation/evaluator'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { numberOf, type Places } from '@ductwright/models/sweep/combination-number'
import { compareAs, DIMENSIONS, tieOrder } from '@ductwright/models/sweep/objectives'
import { type PlanNode, type PlanUnit, partsOf } from '@ductwright/models/sweep/plan'
import { answerHash } from './answer.js'
import { comparedOf, objectivesOf } from './objectives-of.js'
import { type Prepared, prepare } from './prepare.js'

/** How much of what could be bought is held against the list: so many combinations at random, or all. */
export type Extent = { readonly sample: number; readonly seed: number } | 'whole'

export interface VerifyHooks {
  /** Share of the extent done, 0…1. */
  progress(share: number): void
}

export interface Verification {
  /** What does not hold, in sentences; empty when everything does. */
  readonly faults: readonly string[]
  readonly members: number
  /** Combinations held against the list, and how many of them hold every limit. */
  readonly tried: number
  readonly feasible: number
  /** Combinations that fit together. */
  readonly compatible: number
}

/** Faults told at most; more of them say nothing new. */
const MOST_FAULTS = 20
/** Combinations between two words of progress. */
const STRIDE = 20_000

/**
 * Verifies a result.
 * @throws InputError when the result belongs to other models or to another catalogue version, so that nothing can be said
 */
export function verifyResult(result: Result, catalogue: Catalogue, extent: Extent, hooks: VerifyHooks): Verification {
  refuseOthers(result, catalogue)
  const verifier = new Verifier(prepare(result.understood, catalogue), result)
  verifier.checkHashes()
  verifier.checkMembers()
  verifier.checkAgainstEachOther()
  if (extent === 'whole') verifier.tryAll(hooks)
  else verifier.trySample(extent.sample, new RandomStream(extent.seed, 'verify'), hooks)
  const { faults, tried, feasible } = verifier
  return { faults, members: result.front.length, tried, feasible, compatible: verifier.compatible }
}

function refuseOthers({ model_version: models, catalogue: named }: Result, { version }: Catalogue): void {
  const faults = [
    ...(models === MODEL_VERSION
      ? []
      : [{ pointer: '/model_version', value: models, message: `is of models ${models}; these are ${MODEL_VERSION}` }]),
    ...(named.version === version
      ? []
      : [
          {
            pointer: '/catalogue/version',
            value: named.version,
            message: `is of another catalogue; this one is ${version}`,
          },
        ]),
  ].map(({ pointer, value, message }) => ({ pointer, rule: 'version', value: shown(value), message }))
  if (faults.length > 0) throw new InputError('the result cannot be verified', faults)
}

interface Listed {
  readonly number: number
  readonly cells: readonly number[]
  readonly raw: { readonly speed: number; readonly time: number; readonly cost: number; readonly margin: number }
}

class Verifier {
  readonly faults: string[] = []
  tried = 0
  feasible = 0
  readonly #prepared: Prepared
  readonly #result: Result
  readonly #evaluator: Evaluator
  readonly #cells = new Float64Array(DIMENSIONS)
  readonly #listed: Listed[] = []

  constructor(prepared: Prepared, result: Result) {
    this.#prepared = prepared
    this.#result = result
    this.#evaluator = new Evaluator(prepared.problem.circumstances)
    this.#evaluator.limits.nearShare.fill(0)
  }

  get compatible(): number {
    return this.#prepared.plan.compatible
  }

  checkHashes(): void {
    const { understood, request_hash: request, answer_hash: answer } = this.#result
    if (sha256Hex(canonicalJson(understood)) !== request) this.#note('The request hash is not that of the request.')
    if (answerHash(this.#result) !== answer) this.#note('The answer hash is not that of the answer.')
  }

  /** Every listed setup holds every limit and does what is printed. */
  checkMembers(): void {
    for (const member of this.#result.front) {
      const places = this.#placesOf(member)
      if (places === null) this.#note(`Number ${member.rank} names parts or settings that this request does not offer.`)
      else this.#checkMember(member, places)
    }
  }

  #checkMember({ rank, raw, compared }: Member, places: Places): void {
    if (!this.#holds(places)) {
      this.#note(`Number ${rank} breaks a limit.`)
      return
    }
    const { speed, time, cost, margin } = this.#evaluator
    const worked = { speed, time, cost, margin }
    if (!agrees(objectivesOf(worked), raw)) this.#note(`Number ${rank} does not do what is printed.`)
    compareAs(worked, this.#prepared.problem.comparison, this.#cells, 0)
    const cells = Array.from(this.#cells)
    if (!agrees(comparedOf(cells), compared)) this.#note(`Number ${rank} is not compared as the rules say.`)
    this.#listed.push({ number: numberOf(this.#prepared.problem, this.#prepared.plan, places), cells, raw: worked })
  }

  checkAgainstEachOther(): void {
    const listed = this.#listed
    for (const [i, a] of listed.entries()) {
      const better = listed.findIndex((b, j) => j !== i && noWorse(b.cells, a.cells))
      if (better >= 0)
        this.#note(`A listed setup is beaten or equalled by another (places ${i + 1} and ${better + 1}).`)
    }
  }

  trySample(count: number, random: RandomStream, hooks: VerifyHooks): void {
    const { plan, problem } = this.#prepared
    const { motors, duties } = problem.candidates
    while (plan.compatible > 0 && this.tried < count && this.faults.length < MOST_FAULTS) {
      const node = Math.floor(random.share() * plan.nodes.length)
      const unit = Math.floor(random.share() * plan.units.length)
      const most = motors[(plan.nodes[node] as PlanNode).motor]?.cellsMax ?? 0
      if ((plan.units[unit] as PlanUnit).source.cells > most) continue
      this.#try({ node, unit, duty: Math.floor(random.share() * duties.length) })
      if (this.tried % STRIDE === 0) hooks.progress(this.tried / count)
    }
    hooks.progress(1)
  }

  tryAll(hooks: VerifyHooks): void {
    const { plan, problem } = this.#prepared
    const { motors, duties } = problem.candidates
    for (const [node, { motor }] of plan.nodes.entries()) {
      for (const [unit, { source }] of plan.units.entries()) {
        if (source.cells > (motors[motor]?.cellsMax ?? 0)) continue
        for (let duty = 0; duty < duties.length; duty++) this.#try({ node, unit, duty })
      }
      hooks.progress((node + 1) / plan.nodes.length)
      if (this.faults.length >= MOST_FAULTS) return
    }
    hooks.progress(1)
  }

  /** A setup that holds every limit must be listed, beaten, or equalled by one that the tie rule puts first. */
  #try(places: Places): void {
    this.tried++
    if (!this.#holds(places)) return
    this.feasible++
    compareAs(this.#evaluator, this.#prepared.problem.comparison, this.#cells, 0)
    const number = numberOf(this.#prepared.problem, this.#prepared.plan, places)
    for (const { cells, raw, number: other } of this.#listed) {
      if (!noWorse(cells, this.#cells)) continue
      const equal = cells.every((value, i) => value === this.#cells[i])
      if (!equal || tieOrder(raw, other, this.#evaluator, number) <= 0) return
    }
    this.#note(`No listed setup is as good as ${this.#words(places)}.`)
  }

  #holds({ node, unit, duty }: Places): boolean {
    const { problem, plan } = this.#prepared
    const parts = partsOf(problem, plan.nodes[node] as PlanNode, plan.units[unit] as PlanUnit)
    const evaluator = this.#evaluator
    const value = problem.candidates.duties[duty] as number
    return evaluator.assemble(parts) && evaluator.evaluate(value) && evaluator.limits.broken < 0
  }

  #placesOf({ setup }: Member): Places | null {
    const { problem, plan } = this.#prepared
    const { fans, motors, escs, packs, arrangements, nozzleRatios, duties } = problem.candidates
    const node = plan.nodes.findIndex(
      ({ fan, motor, nozzle }) =>
        fans[fan]?.id === setup.fan && motors[motor]?.id === setup.motor && nozzleRatios[nozzle] === setup.nozzle_ratio,
    )
    const timing = (setup.timing_deg * Math.PI) / 180
    const unit = plan.units.findIndex(
      ({ esc, timing: at, pack, arrangement }) =>
        escs[esc]?.id === setup.esc &&
        Math.abs((escs[esc]?.timings[at] as number) - timing) < 1e-6 &&
        packs[pack]?.id === setup.pack &&
        arrangements[arrangement] === setup.arrangement,
    )
    const duty = duties.indexOf(setup.duty)
    return node < 0 || unit < 0 || duty < 0 ? null : { node, unit, duty }
  }

  #words({ node, unit, duty }: Places): string {
    const { candidates } = this.#prepared.problem
    const { fan, motor, nozzle } = this.#prepared.plan.nodes[node] as PlanNode
    const { esc, pack, arrangement } = this.#prepared.plan.units[unit] as PlanUnit
    const ids = [
      candidates.fans[fan]?.id,
      candidates.motors[motor]?.id,
      candidates.escs[esc]?.id,
      candidates.packs[pack]?.id,
    ]
    const settings = [candidates.arrangements[arrangement], `nozzle ratio ${candidates.nozzleRatios[nozzle]}`]
    return [...ids, ...settings, `duty ${candidates.duties[duty]}`].join(', ')
  }

  #note(fault: string): void {
    if (this.faults.length < MOST_FAULTS) this.faults.push(fault)
  }
}

function noWorse(cells: ArrayLike<number>, others: ArrayLike<number>): boolean {
  for (let i = 0; i < DIMENSIONS; i++) if ((cells[i] as number) > (others[i] as number)) return false
  return true
}

function agrees(a: Printed, b: Printed): boolean {
  return canonicalJson(a) === canonicalJson(b)
}
