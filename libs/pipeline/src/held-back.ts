// What holds the fastest setup within the limits back: the fastest of the list, or, where all are too slow to be listed,
// the one that a search without a least speed has found.
import type { SetupChoice } from '@ductwright/contract/request'
import type { Member, Relaxation } from '@ductwright/contract/result'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { highestDuty, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { bindsOf } from './binds.js'
import { findSetup } from './find-setup.js'
import type { Prepared } from './prepare.js'

/** null where no setup holds the limits, whatever its speed. */
export function heldBackBy(
  prepared: Prepared,
  fastest: Member | null,
  relaxations: readonly Relaxation[],
): string | null {
  if (fastest !== null) return fastest.binds.words
  const slower = relaxations.find(({ relax }) => relax === 'target')
  return slower === undefined ? null : bindsOfSlow(prepared, slower.setup)
}

function bindsOfSlow({ catalogue, prices, problem }: Prepared, setup: SetupChoice): string | null {
  const { limits } = problem.circumstances
  const circumstances = { ...problem.circumstances, limits: { ...limits, speedFloor: 0 } }
  const { fan, parts: found } = findSetup(setup, catalogue, prices, '')
  const cost = found.cost + problem.candidates.fixedCost
  const parts = { ...found, cost, node: fanNode(circumstances, fan.part, setup.nozzle_ratio) }
  const ceiling = highestDuty(circumstances, parts, setup.duty)
  const detail = setupDetail(circumstances, parts, setup.duty)
  // A cost added up in another order may pass a budget that is spent to the cent by its last bit.
  return ceiling === null || 'refused' in detail ? null : bindsOf(detail, ceiling).words
}
