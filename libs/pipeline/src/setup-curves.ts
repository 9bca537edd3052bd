// The curves of a setup as a person names it: parts, airframe and circumstances found in the catalogue as for a report,
// then every curve. null when the setup cannot be worked through, which its report explains.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupCurves } from '@ductwright/contract/curves'
import type { SetupRequest } from '@ductwright/contract/setup'
import { setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { setupCurves } from './curves.js'
import { timelineOf } from './flight-figures.js'
import { resolveSetup } from './resolve-setup.js'

/**
 * Curves of a setup whose report has been made: its ids are known to the catalogue.
 * @throws InputError for unknown parts or timings, or a measured speed that no drag area explains
 */
export function curvesOfSetup(request: SetupRequest, listed: Catalogue): SetupCurves | null {
  const { circumstances, parts } = resolveSetup(request, listed)
  const { duty } = request.setup
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) return null
  const timeline = timelineOf(circumstances, parts, duty, detail)
  return setupCurves({ circumstances, parts, duty, target: request.target, timeline })
}
