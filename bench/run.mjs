// Measures solvers, sweeps and the front filter on this machine and writes bench/RESULTS.md. Everything is seeded; ratios
// are taken within one run, since only those carry over to another machine. `--quick` measures less and writes nothing.
import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { measureFronts } from './fronts.mjs'
import { sunkTotal } from './measure.mjs'
import { AIRFRAME, preparedQuestion, TARGET_KM_H } from './question.mjs'
import { measureSolvers } from './solvers.mjs'
import { measureSweeps } from './sweeps.mjs'

const quick = process.argv.includes('--quick')
const load = loadavg()[0] ?? 0
const prepared = await preparedQuestion()
const solvers = await measureSolvers(prepared, quick)
const sweeps = await measureSweeps(prepared, quick)
const fronts = await measureFronts(quick)
const page = pageOf()
process.stdout.write(page)
process.stderr.write(`(all work came to ${sunkTotal().toPrecision(6)})\n`)
if (!quick) writeFileSync(new URL('./RESULTS.md', import.meta.url), page)

function pageOf() {
  const { candidates } = prepared.problem
  const lists = ['fans', 'motors', 'escs', 'packs'].map((list) => `${candidates[list].length} ${list}`).join(', ')
  const [oneByOne, shortcuts, one, two] = sweeps
  return [
    '# Measured speed',
    '',
    'Written by `npm run bench`; other machines differ, ratios within this page carry over.',
    '',
    `- Date: ${new Date().toISOString().slice(0, 10)}`,
    `- Commit: ${commit()}`,
    `- Processor: ${cpus()[0]?.model ?? 'unknown'}, ${cpus().length} threads`,
    `- Other work on the machine when it began: load ${load.toFixed(1)}`,
    `- Node: ${process.version}`,
    `- Command: \`npm run bench${quick ? ' -- --quick' : ''}\``,
    `- Question: ${AIRFRAME} toward ${TARGET_KM_H} km/h for 1200 EUR, ${lists}, ${candidates.nozzleRatios.length} nozzle ratios, ${candidates.duties.length} duties: ${count(prepared.plan.raw)} combinations, ${count(prepared.plan.compatible)} compatible`,
    '',
    '## Solvers',
    '',
    'Setups that hold every limit, in turn; batches of 1000.',
    '',
    ...table(
      ['What', 'Least ns', 'Mean ns', '± ns'],
      solvers.map(({ name, least, mean, deviation }) => [
        name,
        least.toFixed(0),
        mean.toFixed(0),
        deviation.toFixed(0),
      ]),
    ),
    '',
    '## Sweeps',
    '',
    'An even sample of the fan and motor pairs with every controller, timing, pack, arrangement and duty. Combinations that a',
    'shortcut settles count as done.',
    '',
    ...table(
      ['What', 'Combinations', 'Best million/s', 'Mean million/s', '± million/s', 'Runs'],
      sweeps.map(({ name, combinations, best, mean, deviation, runs }) => [
        name,
        count(combinations),
        ...[best, mean, deviation].map((rate) => (rate / 1e6).toFixed(3)),
        runs,
      ]),
    ),
    '',
    `Best against best: shortcuts ${(shortcuts.best / oneByOne.best).toFixed(2)} × one by one; two threads ${(two.best / one.best).toFixed(2)} × one (on a busy machine this says little).`,
    '',
    '## Front filter',
    '',
    ...table(
      ['Points', 'Number', 'Members', 'Least ns', 'Mean ns', '± ns', 'Best million/s', 'Runs'],
      fronts.map(({ name, points, members, leastNs, meanNs, deviationNs, best, runs }) => [
        name,
        count(points),
        count(members),
        ...[leastNs, meanNs, deviationNs].map((ns) => ns.toFixed(1)),
        (best / 1e6).toFixed(3),
        runs,
      ]),
    ),
    '',
  ].join('\n')
}

/** Cells padded to the width of their column, figures to the right. */
function table(header, rows) {
  const all = [header, ...rows].map((cells) => cells.map(String))
  const widths = header.map((_, i) => Math.max(...all.map((cells) => cells[i].length)))
  const line = (cells) => `| ${cells.join(' | ')} |`
  const padded = (cells) => line(cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))))
  const rule = line(widths.map((width, i) => (i === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`)))
  const [first, ...others] = all.map(padded)
  return [first, rule, ...others]
}

function count(value) {
  return value.toLocaleString('en-GB')
}

function commit() {
  try {
    const git = (...words) => execFileSync('git', words, { encoding: 'utf8' }).trim()
    return git('rev-parse', '--short', 'HEAD') + (git('status', '--porcelain') === '' ? '' : ' with local changes')
  } catch {
    return 'unknown (no repository)'
  }
}
