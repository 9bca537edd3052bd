// How many random sweeps the search is held against brute force, and how many pairs of setups the claims its bounds rest
// on are tried with: some hundreds and thousands in every test run, more when a soak asks.
/** Seed of the first of them. */
export const FIRST_SEED = 5000

const USUAL_CASES = 300
const USUAL_PAIRS = 6000

/** Every setup of many boxes is worked through for a sweep whose bounds are tried, so these are fewer. */
const BOUNDS_SHARE = 1 / 5

export function searchCases(): number {
  return wholeNumber('SEARCH_CASES', USUAL_CASES)
}

/** Random sweeps whose bounds are held against every setup in them. */
export function boundsCases(): number {
  return Math.ceil(BOUNDS_SHARE * searchCases())
}

/** Pairs of setups that differ in one attribute. */
export function soakPairs(): number {
  return wholeNumber('SOAK_PAIRS', USUAL_PAIRS)
}

function wholeNumber(name: string, usual: number): number {
  const named = process.env[name]
  if (named === undefined) return usual
  if (!/^[1-9]\d{0,8}$/.test(named)) throw new RangeError(`${name} must be a whole number above 0, got "${named}"`)
  return Number(named)
}
