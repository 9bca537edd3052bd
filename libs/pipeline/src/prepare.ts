// From a request and a catalogue to a problem the models can sweep: ids resolved, candidates narrowed to what is
// required and not excluded, parts priced for this owner, and the drag area taken from the catalogue, from the request,
// or from the measured speed of the present setup. Deterministic and quick, so every thread prepares again.
import type { Catalogue, Listed, ListedTreatment } from '@ductwright/catalogue/catalogue'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import type { SweepRequest } from '@ductwright/contract/request'
import { type Plan, planSweep } from '@ductwright/models/sweep/plan'
import type { Candidates, SweepProblem } from '@ductwright/models/sweep/problem'
import { type AirframeChoice, resolveAirframe } from './airframe-choice.js'
import { circumstancesOf } from './circumstances.js'
import { ownedCounts, PriceList, total } from './costs.js'
import { type KnownPart, knownParts, partFault, type Table } from './known-parts.js'
import { withPackConditions } from './pack-condition.js'

/** Unless the whole front is asked for, slower than this share of the target is not an answer. */
export const SPEED_FLOOR_SHARE = 0.85

export interface Prepared {
  readonly request: SweepRequest
  readonly catalogue: Catalogue
  readonly problem: SweepProblem
  readonly plan: Plan
  readonly prices: PriceList
  readonly known: ReadonlyMap<string, KnownPart>
  /** The airframe that is flown, and the present setup when the request tells it. */
  readonly chosen: AirframeChoice
}

/** A listed part with its table, for the lists a sweep runs over. */
type Choices = Pick<Catalogue, 'fans' | 'motors' | 'escs' | 'packs'>

/**
 * Prepares a sweep.
 * @throws InputError with every fault: unknown parts, a currency that is not the catalogue's, contradictions, a measured
 *   speed that no drag area explains, nothing left to choose from
 */
export function prepare(request: SweepRequest, listed: Catalogue): Prepared {
  const catalogue = withPackConditions(listed, request.owned)
  const known = knownParts(catalogue)
  const faults = [...idFaults(request, known), ...currencyFaults(request, catalogue), ...conflictFaults(request)]
  const prices = new PriceList(catalogue, ownedCounts(request.owned, catalogue), new Set(request.excluded))
  const choices = narrowedChoices(request, catalogue)
  if (faults.length === 0) faults.push(...emptyFaults(choices))
  if (faults.length > 0) throw new InputError('the request cannot be worked out', faults)

  const { mass, budget, target, sweep } = request
  const chosen = resolveAirframe({ ...request, aim: target.speed }, catalogue, prices)
  if (mass.fixed !== null && mass.fixed > chosen.airframe.takeOffMassLimit) {
    throw new InputError('the request cannot be worked out', [fixedMassFault(mass.fixed, chosen.airframe)])
  }
  const speedFloor = sweep.wholeFront ? 0 : SPEED_FLOOR_SHARE * target.speed
  const sections = { ...request, charge: sweep.charge, budget, basis: target.basis, speedFloor }
  const problem: SweepProblem = {
    circumstances: circumstancesOf(sections, chosen.airframe),
    candidates: candidatesOf(choices, prices, sweep, chosen.treatments),
    comparison: {
      resolution: sweep.resolution,
      wantedTime: sweep.wholeFront ? Number.POSITIVE_INFINITY : request.wanted.flightTime,
      wantedMargin: sweep.wholeFront ? Number.POSITIVE_INFINITY : request.wanted.margin,
      targetSpeed: target.speed,
    },
  }
  return {
    request,
    catalogue,
    problem,
    plan: planSweep(problem),
    prices,
    known,
    chosen,
  }
}

/** Candidates with their costs and masses for one owner. */
export function candidatesOf(
  choices: Choices,
  prices: PriceList,
  sweep: Pick<SweepRequest['sweep'], 'arrangements' | 'nozzleRatios' | 'duties'>,
  treatments: readonly ListedTreatment[],
): Candidates {
  const pairs = choices.fans.flatMap((fan) => choices.motors.map((motor) => ({ fan, motor })))
  return {
    fans: choices.fans.map(({ part }) => part),
    motors: choices.motors.map(({ part }) => part),
    escs: choices.escs.map(({ part }) => part),
    packs: choices.packs.map(({ part }) => part),
    arrangements: sweep.arrangements,
    nozzleRatios: sweep.nozzleRatios,
    duties: sweep.duties,
    pairCost: pairs.map(({ fan, motor }) => total(prices.pairLines(fan, motor))),
    pairMass: pairs.map(({ fan, motor }) => prices.pairMass(fan.part, motor.part)),
    escCost: choices.escs.map((esc) => total(prices.escLines(esc))),
    escMass: choices.escs.map(({ part }) => prices.escMass(part)),
    packCost: choices.packs.flatMap((pack) => [total(prices.packLines(pack, 1)), total(prices.packLines(pack, 2))]),
    fixedCost: total(prices.treatmentLines(treatments)),
  }
}

function idFaults(request: SweepRequest, known: ReadonlyMap<string, KnownPart>): Fault[] {
  const faults: (Fault | null)[] = []
  const check = (id: string, pointer: string, table: Table | null): void => {
    faults.push(partFault(known, id, pointer, table))
  }
  for (const [i, { id }] of request.owned.entries()) check(id, `/owned/${i}`, null)
  for (const [i, id] of request.required.entries()) check(id, `/required/${i}`, null)
  for (const [i, id] of request.excluded.entries()) check(id, `/excluded/${i}`, null)
  if (request.airframe.kind === 'catalogue') check(request.airframe.id, '/airframe/id', 'airframe')
  const setup = request.airframe.measured?.setup
  if (setup !== undefined) {
    for (const role of ['fan', 'motor', 'esc', 'pack'] as const) {
      check(setup[role], `/airframe/measured/setup/${role}`, role)
    }
  }
  return faults.filter((fault) => fault !== null)
}

function currencyFaults(request: SweepRequest, catalogue: Catalogue): Fault[] {
  const { budgetCurrency } = request
  if (budgetCurrency === null || budgetCurrency === catalogue.currency) return []
  const message = `the budget is in ${budgetCurrency}, but this catalogue's prices are in ${catalogue.currency}; give the budget in ${catalogue.currency}`
  return [{ pointer: '/budget', rule: 'currency', value: shown(budgetCurrency), message }]
}

function conflictFaults(request: SweepRequest): Fault[] {
  return request.required.flatMap((id, i) =>
    request.excluded.includes(id)
      ? [
          {
            pointer: `/required/${i}`,
            rule: 'conflict',
            value: shown(id),
            message: `${shown(id)} is both required and excluded`,
          },
        ]
      : [],
  )
}

function narrowedChoices(request: SweepRequest, catalogue: Catalogue): Choices {
  const required = new Set(request.required)
  for (const set of catalogue.sets) {
    if (!required.has(set.id)) continue
    required.add(set.fanId)
    required.add(set.motorId)
  }
  const excluded = new Set(request.excluded)
  const narrow = <Entry extends Listed<{ readonly id: string }>>(entries: readonly Entry[]): Entry[] => {
    const must = entries.filter(({ part }) => required.has(part.id))
    return (must.length > 0 ? must : entries).filter(({ part }) => !excluded.has(part.id))
  }
  return {
    fans: narrow(catalogue.fans),
    motors: narrow(catalogue.motors),
    escs: narrow(catalogue.escs),
    packs: narrow(catalogue.packs),
  }
}

function emptyFaults(choices: Choices): Fault[] {
  const words = { fans: 'fan', motors: 'motor', escs: 'speed controller', packs: 'pack' } as const
  return (Object.keys(words) as (keyof typeof words)[]).flatMap((table) =>
    choices[table].length > 0
      ? []
      : [
          {
            pointer: '/excluded',
            rule: 'nothing-left',
            value: table,
            message: `no ${words[table]} is left to choose from`,
          },
        ],
  )
}

function fixedMassFault(fixed: number, airframe: AirframeChoice['airframe']): Fault {
  const limit = airframe.takeOffMassLimit
  const message = `a take-off mass of ${fixed} kg is above the ${limit} kg this airframe may take off with`
  return { pointer: '/mass/fixed_kg', rule: 'range', value: shown(fixed), message }
}
