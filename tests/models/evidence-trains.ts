// Whole power trains by the laws of the catalogue for the tests of evidence: one object says what is built, and a solver
// finds the wind that meets a wish.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { type SetupDetail, setupDetail } from '@ductwright/models/evaluation/setup-detail'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import {
  airframeOf,
  type BelievableSetup,
  circumstancesOf,
  escOf,
  fanOf,
  motorOf,
  packOf,
  setupOf,
} from './believable-parts.js'

export interface Train {
  readonly tipDiameter: number
  readonly cells: number
  /** Ah */
  readonly capacity: number
  readonly motorMass: number
  readonly escLabel?: number
  /** Ω·Ah of a cell. */
  readonly cellQuality?: number
  readonly nozzleRatio?: number
}

/** What a train is built into; `mass` in kg, null: what the parts add up to. */
export interface Installation {
  readonly airframe?: Partial<Airframe>
  readonly mass?: number | null
  readonly profile?: Partial<Circumstances['profile']>
  readonly circumstances?: Partial<Circumstances>
}

export function built(train: Train, rpmPerVolt: number, installation: Installation = {}): BelievableSetup {
  const airframe = airframeOf(installation.airframe)
  const standard = circumstancesOf(airframe)
  const circumstances = {
    ...standard,
    mass: { limit: 99, fixed: installation.mass ?? null },
    profile: { ...standard.profile, ...installation.profile },
    ...installation.circumstances,
  }
  const { tipDiameter, cells, capacity, motorMass, escLabel = 160, cellQuality = 0.009, nozzleRatio } = train
  const pack = packOf(cells, capacity, cellQuality)
  return setupOf(circumstances, fanOf(tipDiameter), motorOf(rpmPerVolt, motorMass), escOf(escLabel), pack, nozzleRatio)
}

export function detailOf({ circumstances, parts }: BelievableSetup, duty = 1): SetupDetail {
  const detail = setupDetail(circumstances, parts, duty)
  if ('refused' in detail) throw new Error(`refused: ${detail.refused}`)
  return detail
}

/** Argument between two at which a rising function gives a value; where the function throws it is taken as too high. */
export function solveFor(value: number, low: number, high: number, rising: (x: number) => number): number {
  let [a, b] = [low, high]
  const below = (x: number) => {
    try {
      return rising(x) < value
    } catch {
      return false
    }
  }
  for (let i = 0; i < 50; i++) {
    const middle = 0.5 * (a + b)
    if (below(middle)) a = middle
    else b = middle
  }
  if (b === high || a === low) throw new RangeError(`no argument between ${low} and ${high} gives ${value}`)
  return 0.5 * (a + b)
}
