// How many random sweeps the search is held against brute force: some hundred in every test run, more when a soak asks.
/** Seed of the first of them. */
export const FIRST_SEED = 5000

const USUAL_CASES = 300

export function searchCases(): number {
  const named = process.env['SEARCH_CASES']
  if (named === undefined) return USUAL_CASES
  if (!/^[1-9]\d{0,5}$/.test(named)) throw new RangeError(`SEARCH_CASES must be a whole number above 0, got "${named}"`)
  return Number(named)
}
