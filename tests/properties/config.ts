// Seed of every property test: fixed, so that a run says the same twice, unless PROPERTY_SEED names another or is "random".
import fc from 'fast-check'

const FIXED_SEED = 20_260_401

const named = process.env['PROPERTY_SEED']
if (named !== undefined && named !== 'random' && !/^-?\d{1,9}$/.test(named)) {
  throw new RangeError(`PROPERTY_SEED must be a whole number of at most nine digits, or "random", got "${named}"`)
}
if (named !== 'random') fc.configureGlobal({ seed: named === undefined ? FIXED_SEED : Number(named) })
