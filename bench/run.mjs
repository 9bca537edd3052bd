// Measures solvers, sweeps, the front filter and the estimate on this machine and writes bench/RESULTS.md with its plot.
// Everything is seeded; ratios are taken within one run, since only those carry over to another machine. `--quick` measures
// less and writes nothing.
import { writeFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { measureCertificates } from './certificates.mjs'
import { measureChanges } from './changes.mjs'
import { measureEstimates } from './estimates.mjs'
import { measureFronts } from './fronts.mjs'
import { growthPlot } from './growth.mjs'
import { commit, sunkTotal } from './measure.mjs'
import { measureMemory } from './memory.mjs'
import { resultsPage } from './page.mjs'
import { preparedQuestion } from './questions.mjs'
import { measureSolvers } from './solvers.mjs'
import { LARGEST, measureFurther, measureSweeps } from './sweeps.mjs'

const quick = process.argv.includes('--quick')
const began = performance.now()
const load = loadavg()[0] ?? 0
const solvers = await measureSolvers(await preparedQuestion('demo, narrowed'), quick)
const sweeps = await measureSweeps(quick)
const estimates = await measureEstimates(sweeps)
const certificates = await measureCertificates(quick)
const changes = await measureChanges(quick)
const further = await measureFurther(quick)
const memory = quick ? null : measureMemory(LARGEST)
const fronts = await measureFronts(quick)
const heading = headingLines()
const page = resultsPage({
  heading,
  solvers,
  sweeps,
  further,
  memory,
  fronts,
  estimates,
  certificates,
  changes,
  largest: LARGEST,
})
process.stdout.write(page)
process.stderr.write(`(all work came to ${sunkTotal().toPrecision(6)})\n`)
if (!quick) {
  writeFileSync(new URL('./RESULTS.md', import.meta.url), page)
  writeFileSync(new URL('./growth.svg', import.meta.url), growthPlot([...sweeps, ...further]))
}

function headingLines() {
  return [
    '# Measured speed',
    '',
    'Written by `npm run bench`; other machines differ, ratios within this page carry over.',
    '',
    `- Date: ${new Date().toISOString().slice(0, 10)}`,
    `- Commit: ${commit()}`,
    `- Processor: ${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} threads`,
    `- Load of the machine over the minute before it began: ${load.toFixed(1)}; when it ended: ${(loadavg()[0] ?? 0).toFixed(1)}`,
    `- Node: ${process.version}`,
    `- Command: \`npm run bench${quick ? ' -- --quick' : ''}\`, ${((performance.now() - began) / 1000).toFixed(0)} s`,
  ]
}
