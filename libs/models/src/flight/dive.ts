// Speed out of a dive. At full throttle the law of the run (run-speed.ts) holds along the path of length s = h/sin γ, with
// the weight pulling along it:
//   ½·m·dV²/ds = K·(V∞² − V²) + W·sin γ,   so   V² = Vd² − (Vd² − V0²)·e^(−2·K·s/m),   Vd² = V∞² + W·sin γ / K,
// exact when thrust less drag falls linearly with V². Without thrust V∞ is 0 and K is ½·ρ·CdA: the terminal speed of a glide.
// Left out: lift, which is W·cos γ in a straight dive and more in the pull-out, and the loss of the pull-out itself.

/** A dive at full throttle; SI. */
export interface Dive {
  /** Level equilibrium speed V∞, m/s. */
  readonly steady: number
  /** Speed at the start of the dive, m/s. */
  readonly entry: number
  /** Thrust less drag, N, at `excessSpeed`. */
  readonly excess: number
  /** Speed at which the excess was found, m/s; the entry speed when left out. It must not be the steady speed. */
  readonly excessSpeed?: number
  /** N */
  readonly weight: number
  /** kg */
  readonly mass: number
  /** Height given up, m. */
  readonly height: number
  /** Below the horizon, rad. */
  readonly angle: number
}

/** Least |V∞² − V²| over V∞² at which an excess says how thrust and drag change with speed. */
const LEAST_GAP = 1e-6

/**
 * Speed at the bottom, m/s. Where the excess cannot tell how thrust and drag change with speed (found at the steady speed,
 * or thrust under drag below it), height turns into speed without loss.
 * @throws RangeError for a height below 0, or an angle outside 0 to π/2
 */
export function diveSpeed(dive: Dive): number {
  const { steady, entry, excess, weight, mass, height, angle } = dive
  if (!(height >= 0)) throw new RangeError(`height of a dive must be at least 0 m, got ${height}`)
  if (height === 0) return entry
  const pull = weight * sineOfDive(angle)
  const gap = steady * steady - (dive.excessSpeed ?? entry) ** 2
  const slope = excess / gap
  if (Math.abs(gap) < LEAST_GAP * steady * steady || slope <= 0) {
    return Math.sqrt(entry * entry + (2 * weight * height) / mass)
  }
  return speedAlong(steady * steady + pull / slope, entry, (2 * slope * height * weight) / (pull * mass))
}

/** Terminal speed of a dive at an angle (rad) with constant thrust (N), m/s: √(2(W·sin γ + T)/(ρ·CdA)). */
export function terminalSpeed(
  weight: number,
  angle: number,
  thrust: number,
  density: number,
  dragArea: number,
): number {
  return Math.sqrt((2 * (weight * sineOfDive(angle) + thrust)) / (density * dragArea))
}

/** Speed after a vertical dive through a height (m) from an entry speed, throttle closed, m/s. */
export function verticalDiveSpeed(terminal: number, entry: number, height: number, gravity: number): number {
  return speedAlong(terminal * terminal, entry, (2 * gravity * height) / (terminal * terminal))
}

function speedAlong(limitSquare: number, entry: number, decay: number): number {
  return Math.sqrt(limitSquare - (limitSquare - entry * entry) * Math.exp(-decay))
}

function sineOfDive(angle: number): number {
  // The closed right angle, so that a vertical dive rounded up still counts.
  if (!(angle > 0 && angle <= Math.PI / 2 + 1e-12)) {
    throw new RangeError(`angle of a dive must lie above 0 and at most π/2 rad, got ${angle}`)
  }
  return Math.sin(angle)
}
