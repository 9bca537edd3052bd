// The thread in which a catalogue that was sent is read and judged: thousands of rows take seconds, in which the API must go
// on answering. Texts go in, and the new version as text or its faults come out.
import { parentPort } from 'node:worker_threads'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { CatalogueError, type CatalogueFault } from '@ductwright/catalogue/catalogue-fault'
import { patchedCatalogue } from '@ductwright/catalogue/patch/read-patch'
import { readCatalogueBytes, readCatalogueJson } from '@ductwright/catalogue/read-upload'
import { type CatalogueReply, replyOf } from './catalogue-reply.js'

/** What was sent: files, JSON of a whole catalogue, or JSON of a patch. */
export type Sent =
  | { readonly kind: 'files'; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly kind: 'whole' | 'patch'; readonly body: unknown }

export interface CatalogueJob {
  readonly sent: Sent
  /** Content of the version in force; null when there is none, and then nothing can be patched. */
  readonly before: string | null
  /** Today, YYYY-MM-DD. */
  readonly day: string
}

export type Judged =
  | {
      readonly ok: true
      readonly next: { readonly version: string; readonly name: string; readonly content: string }
      readonly reply: CatalogueReply
    }
  | { readonly ok: false; readonly faults: readonly CatalogueFault[] }

parentPort?.on('message', (job: CatalogueJob) => parentPort?.postMessage(judged(job)))

function judged({ sent, before, day }: CatalogueJob): Judged {
  const old = before === null ? null : catalogueFromContent(before)
  try {
    const now = read(sent, old)
    const { version, name } = now
    return { ok: true, next: { version, name, content: catalogueContent(now) }, reply: replyOf(now, old, day) }
  } catch (error) {
    if (!(error instanceof CatalogueError)) throw error
    return { ok: false, faults: error.faults }
  }
}

function read(sent: Sent, old: Catalogue | null): Catalogue {
  if (sent.kind === 'files') return readCatalogueBytes(sent.files)
  if (sent.kind === 'whole') return readCatalogueJson(sent.body)
  if (old === null) throw new RangeError('a patch needs a catalogue to lie over')
  return patchedCatalogue(old, sent.body)
}
