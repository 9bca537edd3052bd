// `rerun`: works an answer out again, pinned to what it says it came from: its request as understood, its catalogue version
// and its model version. The same three give the same bytes; anything else is said, and when the bytes differ, where.
import { readFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { readCatalogueJson } from '@ductwright/catalogue/read-upload'
import { InputError } from '@ductwright/contract/fault'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import { understoodRequest } from '@ductwright/contract/understood-schema'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { runSweepLocally } from '@ductwright/worker/local-sweep'
import { sweepInputs } from '@ductwright/worker/shard-pool'
import { Command } from 'commander'
import { catalogueFrom } from './catalogue-folder.js'
import { UsageError } from './complaint.js'
import { differences } from './differences.js'
import { DONE, NO_ANSWER } from './exit-codes.js'
import { reason } from './json-input.js'
import { progressLine } from './progress-line.js'
import { wholeNumber } from './whole-number.js'

/** Answers are some megabytes at most. */
const LARGEST_BYTES = 256 * 1024 * 1024
const DIFFERENCES_SHOWN = 20

interface RerunOptions {
  readonly catalogue?: string
  readonly server?: string
  readonly json?: boolean
  readonly threads: number
}

export function rerunCommand(): Command {
  return new Command('rerun')
    .description('Work an answer out again from its own request, catalogue version and model version.')
    .argument('<result>', 'JSON file with the answer, as `sweep --json` prints it and mails carry it')
    .option('--catalogue <path>', 'folder or JSON file with that catalogue version (default: the demonstration one)')
    .option('--server <address>', 'service to fetch that catalogue version from')
    .option('--json', 'print the answer worked out again on standard output')
    .option('--threads <count>', 'threads to compute on', wholeNumber(1, 256), availableParallelism())
    .action(async (path: string, options: RerunOptions) => {
      const text = await readText(path)
      const before = read(text, path)
      refuseOtherModels(before)
      const catalogue = await pinned(before, options)
      const after = await workedOut(before, catalogue, options.threads)
      if (options.json === true) process.stdout.write(`${after}\n`)
      process.exitCode = judge(text.trimEnd(), after)
    })
}

async function readText(path: string): Promise<string> {
  try {
    const bytes = await readFile(path)
    if (bytes.length > LARGEST_BYTES) throw new UsageError(`${path}: larger than ${LARGEST_BYTES} bytes`)
    return bytes.toString('utf8')
  } catch (error) {
    if (error instanceof UsageError) throw error
    throw new UsageError(`${path}: cannot be read: ${reason(error as NodeJS.ErrnoException)}`)
  }
}

type Pinned = Pick<Result, 'model_version' | 'catalogue' | 'understood'>

/** Only what pins it is judged: the rest is compared. */
function read(text: string, path: string): Pinned {
  const json = parsed(text, path)
  if (json?.format !== 'ductwright-result/1') throw new UsageError(`${path}: is not an answer of this program`)
  const understood = understoodRequest.safeParse(json.understood)
  if (typeof json.model_version !== 'string' || typeof json.catalogue?.version !== 'string' || !understood.success) {
    throw new UsageError(`${path}: does not say which request, catalogue version and model version it came from`)
  }
  return { ...json, understood: understood.data } as Pinned
}

function parsed(text: string, path: string): Partial<Result> | null {
  try {
    return JSON.parse(text) as Partial<Result> | null
  } catch (error) {
    throw new UsageError(`${path}: not JSON: ${(error as Error).message}`)
  }
}

function refuseOtherModels({ model_version }: Pinned): void {
  if (model_version === MODEL_VERSION) return
  const words = `the answer was worked out by models ${inert(model_version, 40)}, this program has ${MODEL_VERSION}`
  throw new UsageError(`${words}: run the release with those models`)
}

async function pinned({ catalogue: { version, name } }: Pinned, options: RerunOptions): Promise<Catalogue> {
  const found =
    options.server === undefined ? await catalogueFrom(options.catalogue) : await fetched(options.server, version)
  if (found.version === version) return found
  const words = `the answer chose from catalogue ${inert(name, 80)}, version ${inert(version, 80)}; this one is version ${found.version}`
  throw new UsageError(`${words}. Name the other with --catalogue, or the service that keeps it with --server`)
}

async function fetched(server: string, version: string): Promise<Catalogue> {
  const address = `${server.replace(/\/+$/, '')}/v1/catalogues/${encodeURIComponent(version)}`
  if (!/^https?:\/\//.test(address) || !URL.canParse(address)) {
    throw new UsageError(`--server ${server}: must be an address that starts with http:// or https://`)
  }
  const reply = await fetch(address).catch((error: Error) => {
    throw new UsageError(`${address}: cannot be reached: ${error.message}`)
  })
  if (!reply.ok) throw new UsageError(`${address}: the service answered ${reply.status}`)
  return readCatalogueJson(await reply.json())
}

async function workedOut({ understood }: Pinned, catalogue: Catalogue, threads: number): Promise<string> {
  const line = progressLine('Working it out again')
  try {
    const inputs = sweepInputs(understood, catalogueContent(catalogue))
    const { result } = await runSweepLocally(inputs, { threads, onProgress: (share) => line.update(share) })
    line.update(1)
    return result
  } catch (error) {
    if (error instanceof InputError) throw new InputError('the answer', error.faults)
    throw error
  } finally {
    line.stop()
  }
}

function judge(before: string, after: string): number {
  if (before === after) {
    process.stderr.write('The same bytes.\n')
    return DONE
  }
  const found = differences(JSON.parse(before), JSON.parse(after))
  if (found.length === 0) {
    process.stderr.write('The same answer, spelled in other bytes.\n')
    return NO_ANSWER
  }
  process.stderr.write(`Not the same: ${found.length} ${found.length === 1 ? 'value differs' : 'values differ'}.\n`)
  for (const words of found.slice(0, DIFFERENCES_SHOWN)) process.stderr.write(`${words}\n`)
  return NO_ANSWER
}
