// The most that a compared speed can be where it is not the level speed but what a run reaches, or the bottom of a dive. By the
// laws of flight/run-speed.ts and flight/dive.ts, with x = 2·K·s/m, s the length of the path and V0 = e·V∞ at its start,
//   V² = L² + 2·g·h·(1 − e^(−x))/x,   L² = V∞² − (V∞² − V0²)·e^(−x):
// what a level run over the path would reach, and what is left of the height.
//
// Entered no faster than level speed, L never rises with losses or mass and never falls with duty, like level speed itself: the
// best train of a box at the least mass and the highest duty has the most. Thrust never rises with flight speed at one duty
// (both: tests/sweep/monotone), so K, the slope of drag less thrust over V² between f·V∞ and V∞, is at least that of the drag,
//   P − I/(f²·V∞⁴) with drag P·V² + I/V²,
// and x is at least that at the most mass and the least V∞. More x leaves less of the height and of an entry above V∞.
// What is slower than some V∞ ends no faster than max(1, e)²·V∞² + 2·g·h, with nothing lost; so only what is faster than the V∞
// for which that is the bound itself needs to be bounded by x. A run after the dive leads from its bottom towards V∞, by the
// same law with P − I/V∞⁴ above V∞, so its end is no faster than V∞ where the bottom is slower.
import { STANDARD_GRAVITY } from '../constants.js'
import { EXCESS_SPEED_SHARE, type FanNode } from '../evaluation/evaluator.js'
import { solveAtDuty } from '../operating-point/at-duty.js'
import { emptyOperatingPoint } from '../operating-point/operating-point.js'
import type { PowerTrain } from '../operating-point/power-train.js'
import type { Circumstances } from './problem.js'

/** What drags and weighs: ½·ρ·CdA, N·s²/m²; induced drag times V², N·m²/s²; kg. Mutable so that a search can refill one. */
export interface Resisting {
  parasite: number
  leastInduced: number
  mostInduced: number
  leastMass: number
  mostMass: number
}

export class ComparedBound {
  readonly isSteady: boolean
  /** Whether a path is entered below level speed, so that more than that speed bounds it. */
  readonly fallsShort: boolean
  /** Length of a run after the dive, m; 0: none. */
  readonly #run: number
  readonly #density: number
  readonly #entryShare: number
  /** Share of level speed at which the law of the path is anchored, and its length, m. */
  readonly #anchorShare: number
  readonly #path: number
  /** The most that height adds to the square of a speed, m²/s². */
  readonly #gain: number
  readonly #point = emptyOperatingPoint()
  /** What is left of the height and of a faster entry at the bottom, and of what is above level speed after the run. */
  #heightLeft = 1
  #entryLeft = 1
  #runLeft = 1

  constructor({ run, speedBasis, density }: Circumstances) {
    const dives = run.entryHeight > 0
    this.isSteady = speedBasis === 'steady'
    this.#run = speedBasis === 'in-run' && dives ? run.length : 0
    this.#density = density
    this.#entryShare = run.entrySpeedShare
    this.fallsShort = !this.isSteady && run.entrySpeedShare < 1
    this.#anchorShare = dives ? Math.min(run.entrySpeedShare, EXCESS_SPEED_SHARE) : run.entrySpeedShare
    const level = speedBasis === 'in-run' ? run.length : 0
    this.#path = dives ? run.entryHeight / Math.sin(run.diveAngle) : level
    this.#gain = 2 * STANDARD_GRAVITY * run.entryHeight
  }

  /** Level speed without which nothing reaches a compared speed, m/s. */
  steadyFor(compared: number, resisting: Resisting): number {
    if (this.isSteady) return compared
    const square = compared * compared
    this.#spend(this.#slowest(square), resisting)
    const share = 1 + Math.max(0, this.#entryShare ** 2 - 1) * this.#entryLeft * this.#runLeft
    return Math.sqrt(Math.max(0, square - this.#gain * this.#heightLeft * this.#runLeft) / share)
  }

  /** The most that a compared speed can be, m/s, where nothing betters a train, a level speed and what resists. */
  most({ duct }: FanNode, train: PowerTrain, steady: number, resisting: Resisting): number {
    if (this.isSteady) return steady
    const square = steady * steady
    const level = this.fallsShort ? this.#levelRun(duct, train, steady, resisting) : 0
    this.#spend(square, resisting)
    this.#spend(this.#slowest(this.#end(square, level)), resisting)
    return Math.sqrt(this.#end(square, level))
  }

  /** Square of the level speed under which nothing reaches the square of a compared speed, with nothing lost. */
  #slowest(square: number): number {
    return Math.max(0, square - this.#gain) / Math.max(1, this.#entryShare ** 2)
  }

  /** Works out what is left of height and entry where level speed is no less than the root of a square. */
  #spend(square: number, { parasite, mostInduced, mostMass }: Resisting): void {
    const slope = (share: number) => Math.max(0, parasite - mostInduced / (share * share * square * square))
    const decay = (2 * slope(this.#anchorShare) * this.#path) / mostMass
    this.#entryLeft = Math.exp(-decay)
    this.#heightLeft = decay > 0 ? -Math.expm1(-decay) / decay : 1
    this.#runLeft = this.#run > 0 ? Math.exp((-2 * slope(1) * this.#run) / mostMass) : 1
  }

  /** Square of the compared speed from that of the level speed, and where it is entered slower that of a level run. */
  #end(square: number, level: number): number {
    const entered = this.fallsShort ? level : square * (1 + (this.#entryShare ** 2 - 1) * this.#entryLeft)
    const bottom = entered + this.#gain * this.#heightLeft
    return this.#run > 0 ? square + Math.max(0, bottom - square) * this.#runLeft : bottom
  }

  /** Square of the speed that a level run over the path reaches; of level speed where nothing better is known. */
  #levelRun(duct: FanNode['duct'], train: PowerTrain, steady: number, resisting: Resisting): number {
    const { parasite, leastInduced, leastMass } = resisting
    const square = steady * steady
    const anchor = this.#anchorShare * steady
    if (solveAtDuty(duct, this.#density, anchor, train, this.#point) !== 'ok') return square
    const excess = this.#point.thrust - parasite * anchor * anchor - leastInduced / (anchor * anchor)
    if (!(excess > 0)) return square
    const decay = (2 * excess * this.#path) / (leastMass * (square - anchor * anchor))
    return square - (1 - this.#entryShare ** 2) * square * Math.exp(-decay)
  }
}
