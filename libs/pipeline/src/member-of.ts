// A combination number back to parts, figures and a shopping list.
import type { Listed, ListedPack } from '@ductwright/catalogue/catalogue'
import type { SetupChoice } from '@ductwright/contract/request'
import type { PurchaseLine, SetupFigures } from '@ductwright/contract/result'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { highestDuty, type NoDetail, type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { packCount } from '@ductwright/models/pack/arrangement'
import { placesOf } from '@ductwright/models/sweep/combination-number'
import { partsOf } from '@ductwright/models/sweep/plan'
import { bindingWords, type Ceiling } from './binding.js'
import { figuresOf, plain } from './figures-of.js'
import type { Prepared } from './prepare.js'
import { withoutBudget, withoutCost } from './without-money.js'
import type { WorkedBefore } from './worked-before.js'

/** One combination with everything that names it. */
export interface Combination {
  readonly setup: SetupChoice
  readonly parts: Parts
  readonly duty: number
  readonly lines: readonly PurchaseLine[]
  readonly replacementCost: number
  /** Same for every setting of the same parts. */
  readonly purchaseKey: string
}

export function combinationOf(prepared: Prepared, number: number): Combination {
  const { problem, plan, catalogue, prices } = prepared
  const { candidates } = problem
  const places = placesOf(problem, plan, number)
  const node = at(plan.nodes, places.node)
  const unit = at(plan.units, places.unit)
  const fan = listed(catalogue.fans, at(candidates.fans, node.fan).id)
  const motor = listed(catalogue.motors, at(candidates.motors, node.motor).id)
  const esc = listed(catalogue.escs, at(candidates.escs, unit.esc).id)
  const pack: ListedPack = listed(catalogue.packs, at(candidates.packs, unit.pack).id)
  const arrangement = at(candidates.arrangements, unit.arrangement)
  const parts = partsOf(problem, node, unit)
  const packs = packCount(arrangement)
  const duty = at(candidates.duties, places.duty)
  return {
    setup: {
      fan: fan.part.id,
      motor: motor.part.id,
      esc: esc.part.id,
      timing_deg: plain((parts.timing * 180) / Math.PI),
      pack: pack.part.id,
      arrangement,
      nozzle_ratio: at(candidates.nozzleRatios, node.nozzle),
      duty,
    },
    parts,
    duty,
    lines: [
      ...prices.pairLines(fan, motor),
      ...prices.escLines(esc),
      ...prices.packLines(pack, packs),
      ...prices.treatmentLines(prepared.chosen.treatments),
    ],
    replacementCost: prices.replacementCost(fan, motor, esc, pack, packs) + candidates.fixedCost,
    purchaseKey: [fan.part.id, motor.part.id, esc.part.id, pack.part.id, packs].join(' '),
  }
}

/** Detail of a combination at a duty; the sweep has seen it hold, so a refusal here is a fault of this program. */
export function detailOf(prepared: Prepared, parts: Parts, duty: number): SetupDetail {
  const detail: SetupDetail | NoDetail = setupDetail(prepared.problem.circumstances, parts, duty)
  if ('refused' in detail) throw new Error(`a setup of the front cannot be worked out again: ${detail.refused}`)
  return detail
}

/** A combination of the front worked through, with the highest throttle its limits allow. */
export interface WorkedSetup {
  readonly combination: Combination
  readonly detail: SetupDetail
  readonly ceiling: Ceiling
  readonly figures: SetupFigures
}

export function workedSetup(prepared: Prepared, number: number, notes: WorkedBefore): WorkedSetup {
  const combination = combinationOf(prepared, number)
  const { parts, setup, duty } = combination
  const circumstances = withoutBudget(prepared.problem.circumstances)
  const ceiling = notes.of('ceiling', { circumstances, parts: withoutCost(parts), duty }, (input) =>
    highestDuty(input.circumstances, input.parts, input.duty),
  )
  if (ceiling === null) throw new Error('a setup of the front breaks a limit when it is worked out again')
  const detail = detailOf(prepared, parts, duty)
  const figures = figuresOf(detail, parts.node.duct.fan, setup.nozzle_ratio, bindingWords(detail, ceiling))
  return { combination, detail, ceiling, figures }
}

function at<Value>(list: readonly Value[], index: number): Value {
  const value = list[index]
  if (value === undefined)
    throw new RangeError(`combination number outside its plan (index ${index} of ${list.length})`)
  return value
}

function listed<Entry extends Listed<{ readonly id: string }>>(entries: readonly Entry[], id: string): Entry {
  const entry = entries.find(({ part }) => part.id === id)
  if (entry === undefined) throw new RangeError(`part ${id} is not in the catalogue`)
  return entry
}
