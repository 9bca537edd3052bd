// /v1/own-parts: the private layer of one owner over the shared catalogue. Its id is the key to it: whoever has it may read,
// replace and delete the parts, and nobody is told which ids there are.
import { type ReadLayer, readLayer } from '@ductwright/catalogue/layer/read-layer'
import type { CatalogueLayerRow } from '@ductwright/records/catalogue-records'
import type { Records } from '@ductwright/records/records'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { changedMeanwhile, ifChanged, ifMatches } from '../if-changed.js'
import { sendJson } from '../json-reply.js'
import { Problem } from '../problems.js'
import { described, refusals, unchanged } from '../responses.js'
import { rowLists } from './catalogue-patch.js'

const sent = z.object({
  name: z.string().describe('What to call the parts, such as "Bench of Anna"'),
  rows: rowLists.describe(
    'Table → rows with ids of their own. A fan may be `like` a shared one: columns it does not give are taken from there',
  ),
})

const kept = z.object({
  id: z.string().describe('To be named in a request; keep it to yourself'),
  name: z.string(),
  version: z.string().describe('SHA-256 of the parts; also the entity tag'),
  created: z.string(),
  changed: z.string(),
  currency: z.string(),
  rows: z.looseObject({}),
})

const params = z.object({ id: z.string().describe('Id given by the reply to POST /v1/own-parts') })
const writing = ['broken-json', 'body-too-large', 'wrong-content-type', 'invalid-catalogue', 'no-catalogue'] as const
const always = ['too-many-requests', 'store-unavailable'] as const

export function ownParts(app: ApiApp, deps: ApiDeps, catalogue: CurrentCatalogue): void {
  const { records } = deps
  const schema = (summary: string) => ({ tags: ['catalogue'], summary, params })
  const unjudged = { validatorCompiler: () => (value: unknown) => ({ value }) }
  app.post(
    '/v1/own-parts',
    {
      schema: {
        tags: ['catalogue'],
        summary: 'Keep own parts, to be laid over the shared catalogue',
        body: sent,
        response: { 201: described(kept, 'Kept'), ...refusals(...writing, ...always) },
      },
      ...unjudged,
    },
    async (request, reply) => {
      const row = await records.addLayer(columnsOf(readLayer(request.body, await catalogue())))
      request.log.info('own parts kept')
      reply.header('etag', `"${row.version}"`).header('location', `/v1/own-parts/${row.id}`)
      return sendJson(reply.code(201), shown(row))
    },
  )
  app.get(
    '/v1/own-parts/:id',
    {
      schema: {
        ...schema('Own parts as they are kept'),
        response: { 200: described(kept, 'The parts'), 304: unchanged, ...refusals('not-found', ...always) },
      },
    },
    async (request, reply) => {
      const row = await knownLayer(records, request.params.id)
      if (!ifChanged(request, reply, row.version)) return reply.code(304).send()
      return sendJson(reply, shown(row))
    },
  )
  app.put(
    '/v1/own-parts/:id',
    {
      schema: {
        ...schema('Replace own parts'),
        body: sent,
        response: {
          200: described(kept, 'Kept'),
          ...refusals('not-found', 'changed-meanwhile', 'condition-required', ...writing, ...always),
        },
      },
      ...unjudged,
    },
    async (request, reply) => {
      const { id } = request.params as z.infer<typeof params>
      const before = await knownLayer(records, id)
      ifMatches(request, before.version)
      const row = await records.changeLayer(id, columnsOf(readLayer(request.body, await catalogue())), before.version)
      if (row === null) throw changedMeanwhile((await knownLayer(records, id)).version)
      return sendJson(reply.header('etag', `"${row.version}"`), shown(row))
    },
  )
  app.delete(
    '/v1/own-parts/:id',
    {
      schema: {
        ...schema('Forget own parts'),
        response: { 204: z.null().describe('Forgotten'), ...refusals('not-found', ...always) },
      },
    },
    async (request, reply) => {
      const row = await knownLayer(records, request.params.id)
      if (!(await records.deleteLayer(row.id))) throw unknownLayer()
      return reply.code(204).send(null)
    },
  )
}

async function knownLayer(records: Records, id: string): Promise<CatalogueLayerRow> {
  const row = await records.getLayer(id)
  if (row === null) throw unknownLayer()
  return row
}

const unknownLayer = (): Problem => new Problem('not-found', 'No own parts have this id.')

const columnsOf = ({ layer, content, version }: ReadLayer) => ({ name: layer.name, content, version })

function shown({ id, name, version, createdAt, changedAt, content }: CatalogueLayerRow): z.infer<typeof kept> {
  const { currency, rows } = JSON.parse(content) as {
    readonly currency: string
    readonly rows: Record<string, unknown>
  }
  return { id, name, version, created: createdAt, changed: changedAt, currency, rows }
}
