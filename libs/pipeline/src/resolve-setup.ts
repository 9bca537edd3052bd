// A setup as a person names it, made ready for the models: packs in their condition, parts and airframe found in the
// catalogue, clean-up work done and priced, and the circumstances of one setup (no budget, no speed floor).
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { type Fault, InputError } from '@ductwright/contract/fault'
import type { PurchaseLine } from '@ductwright/contract/result'
import type { SetupRequest } from '@ductwright/contract/setup'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import { type AirframeChoice, resolveAirframe } from './airframe-choice.js'
import { circumstancesOf } from './circumstances.js'
import { ownedCounts, PriceList, total } from './costs.js'
import { type FoundSetup, findSetup } from './find-setup.js'
import { type KnownPart, knownParts, partFault } from './known-parts.js'
import { withPackConditions } from './pack-condition.js'

export interface ResolvedSetup {
  readonly catalogue: Catalogue
  readonly known: ReadonlyMap<string, KnownPart>
  readonly prices: PriceList
  readonly found: FoundSetup
  readonly chosen: AirframeChoice
  readonly circumstances: Circumstances
  /** With the cost of clean-up work. */
  readonly parts: Parts
  readonly lines: readonly PurchaseLine[]
  readonly replacementCost: number
}

/**
 * Resolves a setup.
 * @throws InputError for unknown parts or timings, work that cannot be worked out, or a measured speed that no drag area
 *   explains
 */
export function resolveSetup(request: SetupRequest, listed: Catalogue): ResolvedSetup {
  const { setup, owned, charge, target } = request
  const catalogue = withPackConditions(listed, owned)
  const known = knownParts(catalogue)
  checkIds(request, known)
  const prices = new PriceList(catalogue, ownedCounts(owned, catalogue), new Set())
  const found = findSetup(setup, catalogue, prices, '/setup')
  const chosen = resolveAirframe({ ...request, sweep: { charge }, aim: target }, catalogue, prices)
  const circumstances = circumstancesOf({ ...request, budget: null, basis: 'steady', speedFloor: 0 }, chosen.airframe)
  const work = prices.treatmentLines(chosen.treatments)
  const cost = found.parts.cost + total(work)
  const node = fanNode(circumstances, found.fan.part, setup.nozzle_ratio)
  return {
    catalogue,
    known,
    prices,
    found,
    chosen,
    circumstances,
    parts: { ...found.parts, cost, node },
    lines: [...found.lines, ...work],
    replacementCost: found.replacementCost + total(work),
  }
}

function checkIds(request: SetupRequest, known: ReadonlyMap<string, KnownPart>): void {
  const faults: (Fault | null)[] = request.owned.map(({ id }, i) => partFault(known, id, `/owned/${i}`, null))
  if (request.airframe.kind === 'catalogue')
    faults.push(partFault(known, request.airframe.id, '/airframe/id', 'airframe'))
  const found = faults.filter((fault) => fault !== null)
  if (found.length > 0) throw new InputError('the setup cannot be worked out', found)
}
