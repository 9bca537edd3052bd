// Checks the whole project from a plain clone: style, types (tests included), and every test. The last line counts them
// all; the exit code is 1 when anything failed or nothing was tested at all.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { checkNode, install, projectFolder, runPackage } from './prepare.mjs'
import { missingServers } from './servers.mjs'

const reportFile = join(projectFolder, '.cache', 'vitest.json')

const suites = await verify()
const sum = (count) => suites.reduce((total, suite) => total + suite[count], 0)
for (const suite of suites.filter((one) => one.failed > 0)) process.stdout.write(`FAILED: ${suite.name}\n`)
process.stdout.write(`\n${sum('passed')} passed, ${sum('failed')} failed, ${sum('skipped')} skipped\n`)
process.exitCode = sum('failed') > 0 || sum('passed') === 0 ? 1 : 0

async function verify() {
  try {
    checkNode()
    install()
  } catch (error) {
    process.stderr.write(`${error.message}\n`)
    return [{ name: 'prepare', passed: 0, failed: 1, skipped: 0 }]
  }
  const missing = await missingServers()
  missing.forEach(shout)
  const done = [
    check('style (biome ci)', () => runPackage('@biomejs/biome/bin/biome', ['ci', '.'])),
    check('types (tsc -b)', () => runPackage('typescript/bin/tsc', ['-b'])),
    tests(),
  ]
  missing.forEach(shout)
  return done
}

function check(name, program) {
  process.stdout.write(`\n== ${name}\n`)
  const ok = program() === 0
  return { name, passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0 }
}

function tests() {
  process.stdout.write('\n== tests (vitest)\n')
  mkdirSync(join(projectFolder, '.cache'), { recursive: true })
  rmSync(reportFile, { force: true })
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${reportFile}`]
  const code = runPackage('vitest/vitest.mjs', ['run', ...reporters])
  if (!existsSync(reportFile)) return { name: 'tests (no report was written)', passed: 0, failed: 1, skipped: 0 }
  const { passed, failed, skipped } = counted(JSON.parse(readFileSync(reportFile, 'utf8')))
  for (const name of skipped) shout(`skipped: ${name}`)
  // An empty run, and an error outside any test, are failures too.
  const silent = failed === 0 && (code !== 0 || passed === 0)
  return { name: 'tests', passed, failed: silent ? 1 : failed, skipped: skipped.length }
}

// A file that could not even be loaded holds no failed test; it counts as one failure.
function counted(report) {
  const results = report.testResults.flatMap((file) => file.assertionResults)
  const holds = (file, status) => file.assertionResults.some((result) => result.status === status)
  const unloaded = report.testResults.filter((file) => file.status === 'failed' && !holds(file, 'failed'))
  return {
    passed: results.filter((result) => result.status === 'passed').length,
    failed: results.filter((result) => result.status === 'failed').length + unloaded.length,
    skipped: results.filter((result) => !['passed', 'failed'].includes(result.status)).map((result) => result.fullName),
  }
}

function shout(line) {
  process.stdout.write(`\n!!! ${line}\n`)
}
