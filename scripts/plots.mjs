// Draws the charts of the example setup into docs/plots.html: the same bytes for the same models and catalogue. For
// maintainers, after a change of the models.
import { join } from 'node:path'
import { build, projectFolder, run } from './prepare.mjs'

const example = join('examples', 'present-setup.json')
const page = join('docs', 'plots.html')

build('cli')
const evaluate = [join(projectFolder, 'cli', 'bin', 'ductwright.js'), 'evaluate', example, '--plots', page]
process.exitCode = run(process.execPath, evaluate, { stdio: ['ignore', 'ignore', 'inherit'] })
if (process.exitCode === 0) process.stdout.write(`${page} is drawn from ${example}.\n`)
