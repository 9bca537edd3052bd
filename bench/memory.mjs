// Peak memory of one question, swept on two threads in a process of its own, which prints it: bytes when prepared and when
// swept.
import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { Team } from './team.mjs'

const script = fileURLToPath(import.meta.url)

/** Largest resident set of a fresh process, bytes: threads, catalogues, plans and fronts. */
export function measureMemory(name) {
  const printed = execFileSync(process.execPath, [script, name], { encoding: 'utf8' })
  const [prepared, swept] = printed.trim().split(' ').map(Number)
  return { prepared, swept }
}

async function peaks(name) {
  const team = new Team(2)
  await team.prepare(name)
  const prepared = residentPeak()
  await team.sweep(2)
  await team.close()
  return [prepared, residentPeak()]
}

function residentPeak() {
  return process.resourceUsage().maxRSS * 1024
}

if (process.argv[1] === script) process.stdout.write(`${(await peaks(process.argv[2])).join(' ')}\n`)
