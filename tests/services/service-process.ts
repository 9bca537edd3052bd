// A part of the service as a process of its own, as an operator runs it: started, asked over HTTP, stopped and killed.
import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import type { Readable } from 'node:stream'
import { fileURLToPath } from 'node:url'
import { eventually, type Status } from './stand.js'

export const projectFolder = fileURLToPath(new URL('../../', import.meta.url))

export interface ServiceProcess {
  readonly child: ChildProcess
  /** Everything it printed, by line. */
  readonly lines: readonly string[]
  /** Waits for a line; fails when the process ends first. */
  line(pattern: RegExp): Promise<RegExpExecArray>
  /** Sends a signal and waits for the end; the exit code, null when the signal killed it. */
  end(signal: NodeJS.Signals): Promise<number | null>
}

export function startProcess(args: readonly string[], env: Readonly<Record<string, string>> = {}): ServiceProcess {
  const child = spawn(process.execPath, args, {
    cwd: projectFolder,
    env: { PATH: process.env['PATH'], LOG_LEVEL: 'info', REQUESTS_PER_MINUTE: '100000', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const lines: string[] = []
  for (const stream of [child.stdout, child.stderr]) {
    createInterface({ input: stream as Readable }).on('line', (line) => lines.push(line))
  }
  const ended = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)))
  return {
    child,
    lines,
    line: (pattern) =>
      eventually(async () => {
        for (const line of lines) {
          const found = pattern.exec(line)
          if (found !== null) return found
        }
        if (child.exitCode !== null || child.signalCode !== null) throw new Error(`it ended:\n${lines.join('\n')}`)
        return null
      }),
    end: (signal) => {
      child.kill(signal)
      return ended
    },
  }
}

export const quickRequest = (changes: Record<string, unknown> = {}): Record<string, unknown> => ({
  title: 'Through every fault',
  address: 'pilot@example.org',
  target: { speed_km_h: 300 },
  airframe: { id: 'airframe-vintra-90' },
  required: ['fan-corune-90-8'],
  sweep: { duties: [0.8, 0.9, 1], nozzle_ratios: [0.84] },
  ...changes,
})

export async function postTo(address: string, body: unknown): Promise<string> {
  const headers = { 'content-type': 'application/json' }
  const reply = await fetch(`${address}/v1/requests`, { method: 'POST', headers, body: JSON.stringify(body) })
  if (reply.status !== 202) throw new Error(`not accepted: ${reply.status} ${await reply.text()}`)
  return ((await reply.json()) as { id: string }).id
}

export const statusAt = async (address: string, id: string): Promise<Status> =>
  (await (await fetch(`${address}/v1/requests/${id}`)).json()) as Status

/** Waits until the request has ended and its mails are settled. */
export const endedAt = (address: string, id: string): Promise<Status> =>
  eventually(async () => {
    const reply = await fetch(`${address}/v1/requests/${id}`)
    // While the database is away the service says to try again.
    if (reply.status === 503) return null
    const status = (await reply.json()) as Status
    const open = status.mails.some((mail) => ['pending', 'sending'].includes(mail.state))
    return !['accepted', 'running'].includes(status.state) && !open && status
  }, 100)

export const resultAt = async (address: string, id: string): Promise<string> =>
  (await fetch(`${address}/v1/requests/${id}/result`)).text()
