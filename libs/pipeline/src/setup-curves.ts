// The curves of a setup as a person names it: parts, airframe and circumstances found in the catalogue as for a report,
// then every curve. null when the setup cannot be worked through, which its report explains.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupRequest } from '@ductwright/contract/setup'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { resolveAirframe } from './airframe-choice.js'
import { circumstancesOf } from './circumstances.js'
import { ownedCounts, PriceList } from './costs.js'
import { type SetupCurves, setupCurves } from './curves.js'
import { findSetup } from './find-setup.js'
import { timelineOf } from './flight-figures.js'
import { withPackConditions } from './pack-condition.js'

/**
 * Curves of a setup whose report has been made: its ids are known to the catalogue.
 * @throws InputError for unknown parts or timings, or a measured speed that no drag area explains
 */
export function curvesOfSetup(request: SetupRequest, listed: Catalogue): SetupCurves | null {
  const { setup, target, owned, charge } = request
  const catalogue = withPackConditions(listed, owned)
  const prices = new PriceList(catalogue, ownedCounts(owned, catalogue), new Set())
  const found = findSetup(setup, catalogue, prices, '/setup')
  const { airframe } = resolveAirframe({ ...request, sweep: { charge }, aim: target }, catalogue, prices)
  const circumstances = circumstancesOf({ ...request, budget: null, basis: 'steady', speedFloor: 0 }, airframe)
  const parts = { ...found.parts, node: fanNode(circumstances, found.fan.part, setup.nozzle_ratio) }
  const detail = setupDetail(circumstances, parts, setup.duty)
  if ('refused' in detail) return null
  const timeline = timelineOf(circumstances, parts, setup.duty, detail)
  return setupCurves({ circumstances, parts, duty: setup.duty, target, timeline })
}
