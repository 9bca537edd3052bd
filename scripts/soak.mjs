// Tries what the exactness of a sweep rests on far more often than a test run does: the search against working everything
// through, bounds of boxes against all they hold, what the bounds take for granted on pairs of setups, and the silence of
// standing requests over random edits of a catalogue. For maintainers, after a change of the models or the search.
// SEARCH_CASES, SOAK_PAIRS and CATALOGUE_EDITS say how much; the defaults take about an hour.
import { build, checkNode, install, runPackage } from './prepare.mjs'

const SWEEPS = '10000'
const PAIRS = '1000000'
const EDITS = '10000'
/** Longer than any test of a soak: it ends when it is through, not when it is late. */
const TEST_TIMEOUT_MS = 86_400_000

try {
  checkNode()
  install()
  build('.')
  process.exitCode = soak()
} catch (error) {
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 1
}

function soak() {
  process.env.SEARCH_CASES ??= SWEEPS
  process.env.SOAK_PAIRS ??= PAIRS
  process.env.CATALOGUE_EDITS ??= EDITS
  const { SEARCH_CASES: sweeps, SOAK_PAIRS: pairs, CATALOGUE_EDITS: edits } = process.env
  process.stdout.write(
    `Soaking the search: ${sweeps} random sweeps, ${pairs} pairs of setups, ${edits} edits of a catalogue ...\n`,
  )
  const started = Date.now()
  const code = runPackage('vitest/vitest.mjs', [
    'run',
    'tests/sweep',
    'tests/standing',
    `--testTimeout=${TEST_TIMEOUT_MS}`,
  ])
  const minutes = ((Date.now() - started) / 60_000).toFixed(1)
  process.stdout.write(`${code === 0 ? 'Everything held' : 'SOMETHING DID NOT HOLD'}, after ${minutes} min.\n`)
  return code
}
