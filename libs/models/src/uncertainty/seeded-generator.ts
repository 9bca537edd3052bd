// Random whole numbers that a seed fixes for good: the same seed gives the same numbers on every machine, because all of
// it is 32-bit integer arithmetic. A counter stepped by the golden ratio is scrambled by shifts and multiplications
// (splitmix, Steele, Lea & Flood, cited from memory; 32-bit constants from memory). Good enough to shuffle digits; not for
// secrets.

/** Golden ratio times 2³², odd: the counter meets every 32-bit number before it repeats. */
const GOLDEN = 0x9e3779b9

export interface SeededGenerator {
  /** Whole number from 0 to 2³² − 1. */
  next(): number
  /** Whole number from 0 to `count` − 1; `count` at most 2³². */
  below(count: number): number
}

/**
 * A generator of its own for a seed.
 * @param seed whole number from 0 to 2³² − 1
 * @throws RangeError for any other seed
 */
export function seededGenerator(seed: number): SeededGenerator {
  if (!(Number.isInteger(seed) && seed >= 0 && seed < 2 ** 32)) {
    throw new RangeError(`seed must be a whole number from 0 to 4294967295, got ${seed}`)
  }
  let state = seed | 0
  const next = (): number => {
    state = (state + GOLDEN) | 0
    let word = Math.imul(state ^ (state >>> 16), 0x21f0aaad)
    word = Math.imul(word ^ (word >>> 15), 0x735a2d97)
    return (word ^ (word >>> 15)) >>> 0
  }
  return { next, below: (count) => Math.floor((next() / 2 ** 32) * count) }
}

/** The numbers from 0 to `count` − 1 in a random order; every order is equally likely (Fisher and Yates). */
export function permutation(generator: SeededGenerator, count: number): number[] {
  const order = Array.from({ length: count }, (_, i) => i)
  for (let last = count - 1; last > 0; last--) {
    const other = generator.below(last + 1)
    const moved = order[last] as number
    order[last] = order[other] as number
    order[other] = moved
  }
  return order
}
