// Tries what the exactness of a sweep rests on far more often than a test run does: the search against working everything
// through, bounds of boxes against all they hold, and what the bounds take for granted on pairs of setups. For maintainers,
// after a change of the models or the search. SEARCH_CASES and SOAK_PAIRS say how much; the defaults take hours.
import { build, checkNode, install, runPackage } from './prepare.mjs'

const SWEEPS = '10000'
const PAIRS = '1000000'
/** Longer than any test of a soak: it ends when it is through, not when it is late. */
const TEST_TIMEOUT_MS = 86_400_000

try {
  checkNode()
  install()
  build('libs/pipeline')
  process.exitCode = soak()
} catch (error) {
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 1
}

function soak() {
  process.env.SEARCH_CASES ??= SWEEPS
  process.env.SOAK_PAIRS ??= PAIRS
  const { SEARCH_CASES: sweeps, SOAK_PAIRS: pairs } = process.env
  process.stdout.write(`Soaking the search: ${sweeps} random sweeps, ${pairs} pairs of setups ...\n`)
  const started = Date.now()
  const code = runPackage('vitest/vitest.mjs', ['run', 'tests/sweep', `--testTimeout=${TEST_TIMEOUT_MS}`])
  const minutes = ((Date.now() - started) / 60_000).toFixed(1)
  process.stdout.write(`${code === 0 ? 'Everything held' : 'SOMETHING DID NOT HOLD'}, after ${minutes} min.\n`)
  return code
}
