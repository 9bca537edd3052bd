// One setup judged as the sweep of a request judges all: the same airframe, prices, circumstances and limits, wishes
// included. Says what keeps it out, or what it would be compared by.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import type { SetupChoice, SweepRequest } from '@ductwright/contract/request'
import type { LimitUse, Objectives } from '@ductwright/contract/result'
import type { SetupRequest } from '@ductwright/contract/setup'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import { evaluateSetup } from '@ductwright/pipeline/evaluate-setup'
import { plain } from '@ductwright/pipeline/figures-of'
import { findSetup } from '@ductwright/pipeline/find-setup'
import { LIMIT_WORDS } from '@ductwright/pipeline/limit-words'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { namesOf } from '@ductwright/pipeline/sentences'
import type { JudgedSetup } from '@ductwright/report/explanation'

const KMH = 3.6

/** @throws InputError for unknown parts or timings, and for whatever `prepare` refuses */
export function judgeSetup(setup: SetupChoice, request: SweepRequest, listed: Catalogue): JudgedSetup {
  const prepared = prepare(request, listed)
  const { candidates, circumstances } = prepared.problem
  const found = findSetup(setup, prepared.catalogue, prepared.prices, '/setup')
  const { refused } = evaluateSetup(alone(setup, request), listed)
  const parts: Parts = {
    ...found.parts,
    cost: found.parts.cost + candidates.fixedCost,
    node: fanNode(circumstances, found.fan.part, setup.nozzle_ratio),
  }
  const detail = setupDetail(circumstances, parts, setup.duty)
  const worked = 'refused' in detail ? null : detail
  return {
    setup,
    names: namesOf(prepared.known, [setup.fan, setup.motor, setup.esc, setup.pack]),
    refused,
    left_out: leftOut(setup, prepared),
    untried: untried(setup, request),
    broken: worked === null ? [] : brokenOf(worked),
    raw: worked === null ? null : rawOf(worked),
  }
}

/** The setup in the circumstances of the request, as `evaluate` takes it. */
function alone(setup: SetupChoice, request: SweepRequest): SetupRequest {
  const { title, airframe, treatments, target, mass, field, profile, run, limits, owned, sweep } = request
  return {
    ...{ title, airframe, setup, treatments, target: target.speed, mass, field, profile, run, limits, owned },
    charge: sweep.charge,
  }
}

/** Parts that the request leaves no choice of: excluded, or another is required. */
function leftOut(setup: SetupChoice, { problem }: Prepared): string[] {
  const { fans, motors, escs, packs } = problem.candidates
  const choices = [
    [setup.fan, fans],
    [setup.motor, motors],
    [setup.esc, escs],
    [setup.pack, packs],
  ] as const
  return choices.filter(([id, among]) => !among.some((part) => part.id === id)).map(([id]) => id)
}

/** Settings between or beside those that the request has tried. */
function untried(setup: SetupChoice, { sweep }: SweepRequest): JudgedSetup['untried'] {
  const among = (value: number, tried: readonly number[]) => tried.some((one) => Math.abs(one - value) < 1e-9)
  return [
    ...(among(setup.duty, sweep.duties) ? [] : (['duty'] as const)),
    ...(among(setup.nozzle_ratio, sweep.nozzleRatios) ? [] : (['nozzle_ratio'] as const)),
    ...(sweep.arrangements.includes(setup.arrangement) ? [] : (['arrangement'] as const)),
  ]
}

function brokenOf({ limits }: SetupDetail): LimitUse[] {
  return limits
    .filter(({ used, allowed }) => used > allowed)
    .map(({ limit, used, allowed }) => ({ limit, words: LIMIT_WORDS[limit], used: plain(used / allowed) }))
    .sort((a, b) => b.used - a.used)
}

function rawOf({ speed, flightTime, cost, margin }: SetupDetail): Objectives {
  return {
    speed_km_h: plain(speed * KMH),
    flight_time_s: plain(flightTime),
    cost: Math.round(cost * 100) / 100,
    margin: plain(margin),
  }
}
