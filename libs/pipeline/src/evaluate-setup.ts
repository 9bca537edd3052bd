// One setup worked through on its own: fits or not, and every figure.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupFigures, SetupStudy } from '@ductwright/contract/result'
import type { SetupReport, SetupRequest } from '@ductwright/contract/setup'
import { highestDuty, type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { MISFITS, planSweep } from '@ductwright/models/sweep/plan'
import type { SweepProblem } from '@ductwright/models/sweep/problem'
import { airFigures, airframeFigures } from './airframe-figures.js'
import { bindingWords } from './binding.js'
import type { PriceList } from './costs.js'
import { extrapolationWarnings } from './extrapolations.js'
import { figuresOf } from './figures-of.js'
import type { FoundSetup } from './find-setup.js'
import { timelineOf } from './flight-figures.js'
import { LIMIT_WORDS, MISFIT_WORDS } from './limit-words.js'
import { candidatesOf } from './prepare.js'
import { type ResolvedSetup, resolveSetup } from './resolve-setup.js'
import { namesOf } from './sentences.js'
import { ASSUMPTIONS, CAUTIONS } from './standing-notes.js'
import { narrowedTolerances, physicsStudy, studyOf } from './study-of.js'
import { openTreatments } from './treatments.js'
import { openWork, workGains } from './work-gain.js'

/**
 * Works a setup through.
 * @throws InputError for unknown parts or timings, or a measured speed that no drag area explains
 */
export function evaluateSetup(request: SetupRequest, listed: Catalogue): SetupReport {
  const resolved = resolveSetup(request, listed)
  const { catalogue, known, found, chosen, circumstances, parts, lines } = resolved
  const { duty, nozzle_ratio: nozzleRatio } = request.setup
  const detail = setupDetail(circumstances, parts, duty)
  const refused = misfitsOf(request, circumstances, found, resolved.prices)
  if ('refused' in detail)
    refused.push({ rule: detail.refused, words: `nothing can be worked out: ${LIMIT_WORDS[detail.refused]}` })
  const figures =
    'refused' in detail
      ? null
      : figuresOf(detail, found.fan.part, nozzleRatio, bindingWords(detail, highestDuty(circumstances, parts, duty)))
  return {
    format: 'ductwright-setup/1',
    model_version: MODEL_VERSION,
    catalogue: {
      name: catalogue.name,
      version: catalogue.version,
      currency: catalogue.currency,
      dated: catalogue.dated,
    },
    understood: request,
    airframe: airframeFigures(chosen, circumstances),
    air: airFigures(request.field, circumstances),
    refused,
    figures,
    study: 'refused' in detail || figures === null ? null : studied(request, resolved, detail, figures),
    shopping: lines,
    cost: parts.cost,
    replacement_cost: resolved.replacementCost,
    names: namesOf(
      known,
      lines
        .map(({ id }) => id)
        .concat(
          Object.values(request.setup).filter((value) => typeof value === 'string' && known.has(value)) as string[],
        ),
    ),
    assumptions: ASSUMPTIONS,
    cautions: [
      ...CAUTIONS,
      ...extrapolationWarnings(figures === null ? [] : [{ parts, figures }], circumstances.soundSpeed),
    ],
  }
}

function studied(
  { setup, target, owned }: SetupRequest,
  { circumstances, parts, chosen, catalogue }: ResolvedSetup,
  detail: SetupDetail,
  figures: SetupFigures,
): SetupStudy {
  const flown = { circumstances, parts, duty: setup.duty }
  const narrowed = narrowedTolerances(chosen, setup.pack, owned)
  const timeline = timelineOf(circumstances, parts, setup.duty, detail)
  const physics = physicsStudy({ ...flown, nozzleRatio: setup.nozzle_ratio, target, narrowed }, detail, timeline)
  const done = chosen.treatments.map(({ kind }) => kind)
  const open = openTreatments(chosen.airframe, done, catalogue)
  const gains = workGains(openWork(flown, chosen, open))
  return studyOf({ setup, detail, figures, target, catalogue, open, gains }, physics)
}

/** Why the parts do not go together: the plan of a sweep that has only this setup in it. */
function misfitsOf(
  request: SetupRequest,
  circumstances: SweepProblem['circumstances'],
  found: FoundSetup,
  prices: PriceList,
): { rule: string; words: string }[] {
  const { arrangement, nozzle_ratio: nozzleRatio, duty } = request.setup
  const esc = { ...found.esc, part: { ...found.esc.part, timings: [found.parts.timing] } }
  const choices = { fans: [found.fan], motors: [found.motor], escs: [esc], packs: [found.pack] }
  const sweep = { arrangements: [arrangement], nozzleRatios: [nozzleRatio], duties: [duty] }
  const candidates = candidatesOf(choices, prices, sweep, [])
  const comparison = {
    resolution: { speed: 0, time: 0, cost: 0, margin: 0 },
    wantedTime: Number.POSITIVE_INFINITY,
    wantedMargin: Number.POSITIVE_INFINITY,
    targetSpeed: 0,
  }
  const plan = planSweep({ circumstances, candidates, comparison })
  return MISFITS.flatMap((rule, i) => ((plan.misfits[i] ?? 0) > 0 ? [{ rule, words: MISFIT_WORDS[rule] }] : []))
}
