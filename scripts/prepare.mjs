// Makes a plain clone ready to run with nothing but Node: checks the Node version, installs the locked packages when
// they are missing or not the locked ones, and builds. Built-ins only, because it runs before anything is installed.
// Shared by `npm run quickstart` and `npm run verify`.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The project folder, whatever folder the script was started from. */
export const projectFolder = fileURLToPath(new URL('..', import.meta.url))

const OLDEST_NODE = 20
const lockFile = join(projectFolder, 'package-lock.json')
const stampFile = join(projectFolder, 'node_modules', '.ductwright-lock-sha256')

/** Stops with a sentence, not a stack trace, on a Node that cannot run the project. */
export function checkNode() {
  const major = Number(process.versions.node.split('.')[0])
  if (major >= OLDEST_NODE) return
  throw new Error(`Node ${process.versions.node} is too old: Node ${OLDEST_NODE} or newer is needed.`)
}

/** Runs a program in the project folder; its exit code, 1 when it could not be started or was killed. */
export function run(program, args, options = {}) {
  const done = spawnSync(program, args, { cwd: projectFolder, stdio: 'inherit', ...options })
  if (done.error) process.stderr.write(`${program} could not be started: ${done.error.message}\n`)
  return done.status ?? 1
}

/** Runs a JavaScript program of an installed package, without asking a shell or a package runner to find it. */
export function runPackage(program, args) {
  return run(process.execPath, [join(projectFolder, 'node_modules', ...program.split('/')), ...args])
}

/** Installs the locked packages unless exactly those are there. */
export function install() {
  if (installed()) return
  process.stdout.write('Installing the locked packages (about half a minute the first time) ...\n')
  if (npm(['ci', '--ignore-scripts', '--no-audit', '--no-fund']) !== 0) {
    throw new Error('The packages could not be installed: "npm ci --ignore-scripts" failed, see its messages above.')
  }
  writeFileSync(stampFile, lockHash())
}

/** Builds one project folder and everything it needs; unchanged ones are left alone. */
export function build(project) {
  if (runPackage('typescript/bin/tsc', ['-b', project]) !== 0) {
    throw new Error(`The build failed: "tsc -b ${project}", see its messages above.`)
  }
}

function installed() {
  if (existsSync(stampFile)) return readFileSync(stampFile, 'utf8') === lockHash()
  if (!matchesOwnInstall()) return false
  writeFileSync(stampFile, lockHash())
  return true
}

function lockHash() {
  return createHash('sha256').update(readFileSync(lockFile)).digest('hex')
}

// A person who ran `npm ci` by hand has no stamp yet, but npm's own record of what it installed tells the same.
function matchesOwnInstall() {
  const record = join(projectFolder, 'node_modules', '.package-lock.json')
  if (!existsSync(record)) return false
  const have = JSON.parse(readFileSync(record, 'utf8')).packages
  const want = JSON.parse(readFileSync(lockFile, 'utf8')).packages
  return Object.entries(want).every(
    ([path, entry]) =>
      !path.startsWith('node_modules/') || entry.optional === true || have[path]?.version === entry.version,
  )
}

function npm(args) {
  const script = process.env.npm_execpath
  if (script !== undefined && existsSync(script)) return run(process.execPath, [script, ...args])
  return process.platform === 'win32' ? run('npm.cmd', args, { shell: true }) : run('npm', args)
}
