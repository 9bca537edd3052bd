// Loads what a sweep is made of: the request as it was sent, read again, and the catalogue version it is pinned to.
import { canonicalJson, sha256Hex } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { SweepRequest } from '@ductwright/contract/request'
import type { Records, RequestRow, SweepRow } from '@ductwright/records/records'
import { type SweepInputs, sweepInputs } from './shard-pool.js'

export interface LoadedSweep {
  readonly sweep: SweepRow
  readonly request: RequestRow
  readonly understood: SweepRequest
  readonly inputs: SweepInputs
}

/** Names a question whatever catalogue it is put to. */
export const questionOf = (understood: SweepRequest): string => sha256Hex(canonicalJson(understood))

export class SweepSource {
  readonly #records: Records
  /** All shards of a sweep ask for the same inputs one after another. */
  #last: { readonly sweepId: string; readonly request: RequestRow; readonly inputs: SweepInputs } | null = null

  constructor(records: Records) {
    this.#records = records
  }

  /** null when the sweep is unknown or has ended. */
  async open(sweepId: string): Promise<LoadedSweep | null> {
    const sweep = await this.#records.getSweep(sweepId)
    if (sweep === null || (sweep.state !== 'accepted' && sweep.state !== 'sweeping')) return null
    if (this.#last?.sweepId !== sweepId) this.#last = { sweepId, ...(await this.#load(sweep)) }
    const { request, inputs } = this.#last
    return { sweep, request, understood: inputs.understood, inputs }
  }

  async #load(sweep: SweepRow): Promise<{ request: RequestRow; inputs: SweepInputs }> {
    const request = await this.#records.getRequest(sweep.requestId)
    if (request === null) throw new Error(`sweep ${sweep.id} belongs to request ${sweep.requestId}, which is gone`)
    const catalogue = await this.#records.getCatalogue(sweep.catalogueVersion)
    if (catalogue === null) throw new Error(`catalogue version ${sweep.catalogueVersion} is not in the store`)
    return { request, inputs: sweepInputs(parseRequest(JSON.parse(request.body)), catalogue) }
  }
}
