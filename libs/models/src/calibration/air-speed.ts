// True air speed and wind from legs flown at one constant air speed, each with its ground speed and track as a satellite
// receiver shows them. The ends of the ground-velocity vectors lie on a circle: its centre is the wind, its radius the air
// speed. Three legs fix it (Gray 1998); more give one answer for every three, their mean and their scatter. Runs to and fro
// on one line leave the wind across it unknown: their mean ground speed is √(air speed² − cross wind²), at most a little low
// (averaging the times instead is wrong, and lower).
// Valid for a steady wind and level legs at one throttle; ground speeds m/s, tracks rad clockwise from north.

/** One leg over the ground. */
export interface Leg {
  readonly groundSpeed: number
  readonly track: number
}

/** A horizontal wind: m/s, and rad clockwise from north where it comes from. */
export interface Wind {
  readonly speed: number
  readonly from: number
}

export interface AirSpeed {
  readonly speed: number
  /** Along the line of the runs alone when they were flown to and fro. */
  readonly wind: Wind
  readonly crossWindKnown: boolean
  /** Standard deviation of what single triplets, or pairs of runs, give; null when there is only one. */
  readonly spread: number | null
}

const DEGREE = Math.PI / 180
/** Runs count as one line when their tracks lie this close to it. Assumed: costs at most 2 % of the wind. */
const LINE_TOLERANCE = 10 * DEGREE
/**
 * Twice the area of the triangle of ground velocities over its longest side squared. Assumed: three tracks spread evenly
 * over 75° have this value, and already enlarge an error of a ground speed five times.
 */
const TRIANGLE_LEAST = 0.17
const LEGS_MOST = 12

/**
 * Air speed and wind from two or more runs to and fro on one line, or from three or more legs in different directions.
 * @throws RangeError when a leg is not one, or the legs cannot determine the air speed; says what is missing
 */
export function airSpeedFromLegs(legs: readonly Leg[]): AirSpeed {
  if (legs.length < 2 || legs.length > LEGS_MOST) {
    throw new RangeError(`legs must number from 2 to ${LEGS_MOST}, got ${legs.length}: fly the opposite direction too`)
  }
  legs.forEach(requireLeg)
  if (isOneLine(legs)) return fromOneLine(legs)
  if (legs.length === 2) {
    const between = Math.abs(turn(legs[0]!.track, legs[1]!.track)) / DEGREE
    throw new RangeError(
      `two legs must be opposite, their tracks 180° ± ${2 * (LINE_TOLERANCE / DEGREE)}° apart, got ${between.toFixed(0)}°: fly a third leg across them`,
    )
  }
  return fromTriplets(legs)
}

/**
 * Air speed of runs in opposite directions on one track from their ground speeds: √(mean² + cross wind²).
 * @throws RangeError for ground speeds that are not positive, or a cross wind that is negative
 */
export function airSpeedFromOppositeRuns(there: number, back: number, crossWind = 0): number {
  requirePositive('ground speed', there)
  requirePositive('ground speed', back)
  if (!(crossWind >= 0 && Number.isFinite(crossWind))) {
    throw new RangeError(`cross wind must be 0 m/s or more, got ${crossWind}`)
  }
  return Math.hypot(0.5 * (there + back), crossWind)
}

/**
 * Air speed and wind from ground speeds on three headings 120° apart, tracks unknown:
 * v² = mean(gi²), ai = gi²/v² − 1, μ = Σa²/6, b = ½ + √(¼ − μ); air speed v√b, wind v√(μ/b).
 * @throws RangeError for ground speeds that are not positive, or too unlike for any wind below the air speed
 */
export function airSpeedFromThreeHeadings(groundSpeeds: readonly [number, number, number]): {
  readonly speed: number
  readonly windSpeed: number
} {
  for (const groundSpeed of groundSpeeds) requirePositive('ground speed', groundSpeed)
  const square = groundSpeeds.reduce((sum, g) => sum + g * g, 0) / 3
  const mu = groundSpeeds.reduce((sum, g) => sum + ((g * g) / square - 1) ** 2, 0) / 6
  if (mu > 0.25) {
    throw new RangeError(
      `ground speeds ${groundSpeeds.join(', ')} m/s must fit a wind below the air speed: one is wrong`,
    )
  }
  const b = 0.5 + Math.sqrt(0.25 - mu)
  return { speed: Math.sqrt(square * b), windSpeed: Math.sqrt((square * mu) / b) }
}

/**
 * Air speed and wind from three legs (Gray 1998): |g_i − w| is the same for all, which is linear in w once differenced.
 * @throws RangeError when the tracks are too much alike, or the wind comes out above the air speed
 */
export function airSpeedFromTriplet(legs: readonly [Leg, Leg, Leg]): { readonly speed: number; readonly wind: Wind } {
  legs.forEach(requireLeg)
  if (triangleShape(legs) < TRIANGLE_LEAST) throw alike(legs)
  const { north, east, speed } = circleOf(legs)
  return { speed, wind: windOf(north, east) }
}

interface Circle {
  readonly north: number
  readonly east: number
  readonly speed: number
}

function circleOf(legs: readonly [Leg, Leg, Leg]): Circle {
  const [first, second, third] = legs.map(velocity) as [Vector, Vector, Vector]
  const row = (other: Vector) => ({
    east: 2 * (first.east - other.east),
    north: 2 * (first.north - other.north),
    right: squared(first) - squared(other),
  })
  const [a, b] = [row(second), row(third)]
  const determinant = a.east * b.north - a.north * b.east
  const east = (a.right * b.north - a.north * b.right) / determinant
  const north = (a.east * b.right - a.right * b.east) / determinant
  const speed = Math.hypot(first.east - east, first.north - north)
  const wind = Math.hypot(east, north)
  if (wind >= speed) {
    throw new RangeError(
      `wind must stay below the air speed, got ${wind.toFixed(1)} against ${speed.toFixed(1)} m/s: check the tracks and ground speeds`,
    )
  }
  return { north, east, speed }
}

function fromTriplets(legs: readonly Leg[]): AirSpeed {
  const circles = tripletsOf(legs)
    .filter((three) => triangleShape(three) >= TRIANGLE_LEAST)
    .map(circleOf)
  if (circles.length === 0) throw alike(legs)
  return {
    speed: mean(circles.map(({ speed }) => speed)),
    wind: windOf(mean(circles.map(({ north }) => north)), mean(circles.map(({ east }) => east))),
    crossWindKnown: true,
    spread: circles.length < 2 ? null : Math.sqrt(variance(circles.map(({ speed }) => speed))),
  }
}

function tripletsOf(legs: readonly Leg[]): [Leg, Leg, Leg][] {
  return legs.flatMap((first, i) =>
    legs
      .slice(i + 1)
      .flatMap((second, k) => legs.slice(i + k + 2).map((third): [Leg, Leg, Leg] => [first, second, third])),
  )
}

function fromOneLine(legs: readonly Leg[]): AirSpeed {
  const axis = legs[0]!.track
  const there = legs.filter(({ track }) => Math.cos(track - axis) > 0).map(({ groundSpeed }) => groundSpeed)
  const back = legs.filter(({ track }) => Math.cos(track - axis) < 0).map(({ groundSpeed }) => groundSpeed)
  if (back.length === 0) {
    throw new RangeError('legs must run in opposite directions or round a circle, got one direction only: fly it back')
  }
  const tailwind = 0.5 * (mean(there) - mean(back))
  return {
    speed: airSpeedFromOppositeRuns(mean(there), mean(back)),
    wind: windOf(tailwind * Math.cos(axis), tailwind * Math.sin(axis)),
    crossWindKnown: false,
    spread: legs.length < 4 ? null : 0.5 * Math.sqrt(variance(there) + variance(back)),
  }
}

function isOneLine(legs: readonly Leg[]): boolean {
  const axis = legs[0]!.track
  // Folded onto one direction first, so that the line does not hang on the first leg alone.
  const folded = legs.map(({ track }) => (Math.cos(track - axis) < 0 ? turn(axis, track + Math.PI) : turn(axis, track)))
  return Math.max(...folded) - Math.min(...folded) <= 2 * LINE_TOLERANCE
}

/** Turn from one direction to another, −π to π. */
function turn(from: number, to: number): number {
  return Math.atan2(Math.sin(to - from), Math.cos(to - from))
}

interface Vector {
  readonly north: number
  readonly east: number
}

function velocity({ groundSpeed, track }: Leg): Vector {
  return { north: groundSpeed * Math.cos(track), east: groundSpeed * Math.sin(track) }
}

function squared({ north, east }: Vector): number {
  return north * north + east * east
}

function triangleShape(legs: readonly [Leg, Leg, Leg]): number {
  const [a, b, c] = legs.map(velocity) as [Vector, Vector, Vector]
  const side = (p: Vector, q: Vector) => squared({ north: p.north - q.north, east: p.east - q.east })
  const area = (b.east - a.east) * (c.north - a.north) - (b.north - a.north) * (c.east - a.east)
  const longest = Math.max(side(a, b), side(b, c), side(c, a))
  return longest > 0 ? Math.abs(area) / longest : 0
}

function windOf(north: number, east: number): Wind {
  const from = Math.atan2(-east, -north)
  return { speed: Math.hypot(north, east), from: from < 0 ? from + 2 * Math.PI : from }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** Of the sample; 0 for a single value. */
function variance(values: readonly number[]): number {
  const middle = mean(values)
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / Math.max(1, values.length - 1)
}

function alike(legs: readonly Leg[]): RangeError {
  const tracks = legs.map(({ track }) => `${(track / DEGREE).toFixed(0)}°`).join(', ')
  return new RangeError(`tracks must spread over 75° or more, got ${tracks}: fly a leg across them`)
}

function requireLeg({ groundSpeed, track }: Leg): void {
  requirePositive('ground speed', groundSpeed)
  if (!Number.isFinite(track)) throw new RangeError(`track must be an angle in rad, got ${track}`)
}

function requirePositive(quantity: string, value: number): void {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${quantity} must be above 0 m/s, got ${value}`)
}
