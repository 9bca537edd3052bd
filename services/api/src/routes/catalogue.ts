// GET /v1/catalogue and its lists: the parts as read, under the version that names them. Lists are as they are in
// memory, SI units, beside what the buyer sees.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { z } from 'zod'
import type { CurrentCatalogue } from '../current-catalogue.js'
import type { ApiApp } from '../deps.js'
import { ifChanged } from '../if-changed.js'
import { sendJson } from '../json-reply.js'
import { described, refusals, unchanged } from '../responses.js'

const lists = ['fans', 'motors', 'escs', 'packs', 'airframes', 'sets'] as const

const overview = z.object({
  name: z.string(),
  version: z.string().describe('SHA-256 of the content'),
  currency: z.string(),
  dated: z.string(),
  counts: z.object({
    fans: z.number(),
    motors: z.number(),
    escs: z.number(),
    packs: z.number(),
    airframes: z.number(),
    sets: z.number(),
  }),
})

const problems = refusals('too-many-requests', 'store-unavailable', 'no-catalogue')

export function catalogueLists(app: ApiApp, catalogue: CurrentCatalogue): void {
  app.get(
    '/v1/catalogue',
    {
      schema: {
        tags: ['catalogue'],
        summary: 'The catalogue in use',
        response: { 200: described(overview, 'What is in it'), 304: unchanged, ...problems },
      },
    },
    async (request, reply) => {
      const current = await catalogue()
      if (!ifChanged(request, reply, current.version)) return reply.code(304).send()
      return sendJson(reply, overviewOf(current))
    },
  )
  for (const list of lists) {
    app.get(
      `/v1/catalogue/${list}`,
      {
        schema: {
          tags: ['catalogue'],
          summary: `The ${list} of the catalogue, sorted by id, SI units`,
          response: {
            200: described(z.looseObject({}), `\`${list}\` beside the catalogue's version`),
            304: unchanged,
            ...problems,
          },
        },
      },
      async (request, reply) => {
        const current = await catalogue()
        if (!ifChanged(request, reply, `${current.version}-${list}`)) return reply.code(304).send()
        return sendJson(reply, { version: current.version, currency: current.currency, [list]: current[list] })
      },
    )
  }
}

function overviewOf(current: Catalogue): z.infer<typeof overview> {
  const { name, version, currency, dated } = current
  const counts = Object.fromEntries(lists.map((list) => [list, current[list].length])) as Record<
    (typeof lists)[number],
    number
  >
  return { name, version, currency, dated, counts }
}
