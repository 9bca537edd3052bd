// Points that fill the unit cube evenly: dimension j of point i is i written in the j-th prime, its digits mirrored behind
// the point. Evenly spread points need fewer runs than random ones: the error of a mean falls almost with 1/n instead of
// 1/√n, and the 5 % and 95 % bounds of a setup come out as from about twice as many random samples. With large primes the
// plain points line up in few samples, so each digit place gets a random order of its digits, fixed by the seed; another
// seed gives another, equally good set, which shows how far a band can be trusted.
// Source: J. H. Halton, Numerische Mathematik 2 (1960); scrambling by places after A. B. Owen (2017). Both from memory.
import { permutation, seededGenerator } from './seeded-generator.js'

/** One prime a dimension. */
const BASES = [
  ...[2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53],
  ...[59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103, 107, 109, 113, 127, 131],
] as const

export const MOST_DIMENSIONS = BASES.length

/** Points that can be told apart: enough digit places are shuffled for this many. */
const MOST_POINTS = 2 ** 24

/**
 * Unscrambled coordinate of a point, in [0, 1).
 * @param index of the point, from 0; point 0 is the origin
 * @param dimension from 0 to 31
 * @throws RangeError for an index or a dimension outside those
 */
export function haltonCoordinate(index: number, dimension: number): number {
  if (!(Number.isInteger(index) && index >= 0 && index < MOST_POINTS)) {
    throw new RangeError(`index must be a whole number from 0 to ${MOST_POINTS - 1}, got ${index}`)
  }
  const base = baseOf(dimension)
  let mirrored = 0
  let places = 1
  for (let rest = index; rest > 0; rest = Math.floor(rest / base)) {
    mirrored = mirrored * base + (rest % base)
    places *= base
  }
  return mirrored / places
}

/**
 * Scrambled points, point after point: coordinate j of point i at i·dimensions + j, each strictly between 0 and 1.
 * More points leave the earlier ones as they are.
 * @param points 1 to 2²⁴
 * @param dimensions 1 to 32
 * @param seed whole number from 0 to 2³² − 1
 * @throws RangeError for arguments outside those
 */
export function haltonPoints(points: number, dimensions: number, seed: number): Float64Array {
  if (!(Number.isInteger(points) && points >= 1 && points <= MOST_POINTS)) {
    throw new RangeError(`points must be a whole number from 1 to ${MOST_POINTS}, got ${points}`)
  }
  if (!(Number.isInteger(dimensions) && dimensions >= 1 && dimensions <= MOST_DIMENSIONS)) {
    throw new RangeError(`dimensions must be a whole number from 1 to ${MOST_DIMENSIONS}, got ${dimensions}`)
  }
  const generator = seededGenerator(seed)
  const cube = new Float64Array(points * dimensions)
  for (let dimension = 0; dimension < dimensions; dimension++) {
    const base = baseOf(dimension)
    const orders = shuffledPlaces(base, () => permutation(generator, base))
    for (let i = 0; i < points; i++) cube[i * dimensions + dimension] = scrambled(i, base, orders)
  }
  return cube
}

function baseOf(dimension: number): number {
  const base = BASES[dimension]
  if (base === undefined) {
    throw new RangeError(`dimension must be a whole number from 0 to ${MOST_DIMENSIONS - 1}, got ${dimension}`)
  }
  return base
}

/** An order of the digits for each place that an index below the most points can fill. */
function shuffledPlaces(base: number, shuffled: () => number[]): number[][] {
  const orders: number[][] = []
  for (let reach = 1; reach < MOST_POINTS; reach *= base) orders.push(shuffled())
  return orders
}

/** Every place is replaced, leading zeros too; the point sits in the middle of the cell its digits name. */
function scrambled(index: number, base: number, orders: readonly (readonly number[])[]): number {
  let mirrored = 0
  let places = 1
  let rest = index
  for (const order of orders) {
    mirrored = mirrored * base + (order[rest % base] as number)
    places *= base
    rest = Math.floor(rest / base)
  }
  return (mirrored + 0.5) / places
}
