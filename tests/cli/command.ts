// Runs the built command line as a child process, as a person does, and reads the example request.
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const projectFolder = fileURLToPath(new URL('../..', import.meta.url))

const bin = join(projectFolder, 'cli', 'bin', 'ductwright.js')

export interface Outcome {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

/** Runs a command to its end; `input` goes to its standard input. */
export function ductwright(args: readonly string[], input = ''): Promise<Outcome> {
  const child = spawn(process.execPath, [bin, ...args], { cwd: projectFolder })
  const pieces = { out: '', err: '' }
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    pieces.out += text
  })
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    pieces.err += text
  })
  // A command that stops reading early is no fault of the test.
  child.stdin.on('error', () => {})
  child.stdin.end(input)
  return new Promise((resolve, reject) => {
    child.once('error', reject)
    child.once('close', (code) => resolve({ code, ...pieces }))
  })
}

/** The example request around the fan and motor it has today, with few settings to try, so that it is quick. */
export function quickRequest(changes: Record<string, unknown> = {}): Record<string, unknown> {
  const { fan, motor, nozzle_ratio } = present().setup
  const sweep = { duties: [0.8, 1], nozzle_ratios: [nozzle_ratio] }
  return { ...example(), required: [fan, motor], sweep, ...changes }
}

/** The present setup of the example request, as `evaluate` reads it. */
export function exampleSetup(changes: Record<string, unknown> = {}): Record<string, unknown> {
  const { field, profile } = example()
  const { id, setup } = present()
  return { airframe: { id }, setup, field, profile, ...changes }
}

function present(): { readonly id: string; readonly setup: Readonly<Record<string, unknown>> } {
  const { id, measured } = example()['airframe'] as { id: string; measured: { setup: Record<string, unknown> } }
  return { id, setup: measured.setup }
}

function example(): Record<string, unknown> {
  const file = join(projectFolder, 'examples', 'composite-to-360.json')
  return JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>
}
