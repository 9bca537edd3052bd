// GET /v1/catalogues/{a}/diff/{b}: what is different in b, row by row and in sentences. Both versions never change, so
// neither does the answer; only `current` in their place may.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { type CatalogueDiff, diffCatalogues } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import { listNames } from '@ductwright/catalogue/lists'
import { inert } from '@ductwright/contract/inert'
import type { Records } from '@ductwright/records/records'
import { z } from 'zod'
import type { ApiApp, ApiDeps } from '../deps.js'
import { ifChanged } from '../if-changed.js'
import { sendJson } from '../json-reply.js'
import { Problem } from '../problems.js'
import { described, refusals, unchanged } from '../responses.js'
import { knownVersion, versionParam } from './catalogue-versions.js'

const cell = z.union([z.string(), z.number()]).nullable()

const column = z.object({
  column: z.string(),
  unit: z.string().describe('Empty for words, counts, ratios and prices'),
  before: cell,
  after: cell,
})

const side = z.object({ version: z.string(), name: z.string(), currency: z.string(), dated: z.string() })

const comparison = z.object({
  before: side,
  after: side,
  words: z.array(z.string()).describe('One sentence a difference'),
  catalogue: z.array(column).describe('Columns of catalogue.csv that differ'),
  parts: z.array(
    z.object({
      kind: z.enum(['new', 'gone', 'dearer', 'cheaper', 'changed']),
      table: z.enum(listNames),
      id: z.string(),
      name: z.string(),
      maker: z.string(),
      before: z.number().nullable().describe('Price before; null: not listed'),
      after: z.number().nullable().describe('Price now; null: no longer listed'),
      columns: z.array(column),
    }),
  ),
})

export function catalogueDiff(app: ApiApp, deps: ApiDeps): void {
  app.get(
    '/v1/catalogues/:a/diff/:b',
    {
      schema: {
        tags: ['catalogue'],
        summary: 'What differs between two versions of the catalogue',
        params: z.object({ a: versionParam, b: versionParam }),
        response: {
          200: described(comparison, 'What is different in b, seen from a'),
          304: unchanged,
          ...refusals('not-found', 'too-many-requests', 'store-unavailable', 'no-catalogue'),
        },
      },
    },
    async (request, reply) => {
      const a = await knownVersion(deps.records, request.params.a)
      const b = await knownVersion(deps.records, request.params.b)
      if (!ifChanged(request, reply, `${a}-${b}`)) return reply.code(304).send()
      const [before, after] = [await catalogueOf(deps.records, a), await catalogueOf(deps.records, b)]
      return sendJson(reply, comparisonOf(diffCatalogues(before, after)))
    },
  )
}

async function catalogueOf(records: Records, version: string): Promise<Catalogue> {
  const content = await records.getCatalogue(version)
  try {
    return catalogueFromContent(content ?? '')
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    throw new Problem('not-found', `Version ${version} was written in a form that is no longer read.`)
  }
}

function comparisonOf(diff: CatalogueDiff): z.infer<typeof comparison> {
  return {
    before: diff.before,
    after: diff.after,
    words: diffWords(diff, diff.after.currency).map((sentence) => inert(sentence)),
    catalogue: diff.head.map((change) => ({ ...change })),
    parts: diff.parts.map(({ entry: _entry, columns, ...change }) => ({
      ...change,
      columns: columns.map((each) => ({ ...each })),
    })),
  }
}
