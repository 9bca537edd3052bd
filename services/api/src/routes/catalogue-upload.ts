// POST /v1/catalogues and PUT /v1/catalogues/current: a whole catalogue becomes an immutable version and the one in force.
// It is read and judged whole first; a fault anywhere changes nothing. PUT asks for the tag of what it replaces.
import { UPLOAD_LIMIT_BYTES } from '@ductwright/catalogue/upload-limits'
import type { FastifyReply, FastifyRequest } from 'fastify'
import { z } from 'zod'
import type { CatalogueJudge } from '../catalogue-judge.js'
import { catalogueReply, today } from '../catalogue-reply.js'
import type { Sent } from '../catalogue-thread.js'
import type { ApiApp, ApiDeps } from '../deps.js'
import { formFiles } from '../form-files.js'
import { changedMeanwhile, ifMatches } from '../if-changed.js'
import { sendJson } from '../json-reply.js'
import { described, refusals } from '../responses.js'

/** The tables, and what a form or JSON puts around them. */
const BODY_LIMIT_BYTES = UPLOAD_LIMIT_BYTES + 1024 * 1024

const body = z
  .looseObject({ files: z.record(z.string(), z.string()).optional().describe('File name → text of the table') })
  .describe('"files", or a catalogue as GET /v1/catalogues/{version} gives it; as a form: the files')

const problems = refusals(
  'broken-json',
  'body-too-large',
  'wrong-content-type',
  'invalid-request',
  'invalid-catalogue',
  'changed-meanwhile',
  'condition-required',
  'too-many-requests',
  'store-unavailable',
)

export function uploadCatalogue(app: ApiApp, deps: ApiDeps, judge: CatalogueJudge): void {
  app.addContentTypeParser(
    'multipart/form-data',
    { parseAs: 'buffer' },
    async (request: FastifyRequest, content: string | Buffer) =>
      formFiles(request.headers['content-type'] ?? '', Buffer.from(content)),
  )
  const route = (method: 'POST' | 'PUT', url: string, summary: string, presence: 'required' | 'optional'): void => {
    app.route({
      method,
      url,
      bodyLimit: BODY_LIMIT_BYTES,
      schema: {
        tags: ['catalogue'],
        summary,
        consumes: ['application/json', 'multipart/form-data'],
        body,
        response: {
          200: described(catalogueReply, 'It was in force already'),
          201: described(catalogueReply, 'It is in force now'),
          ...problems,
        },
      },
      validatorCompiler: () => (value) => ({ value }),
      handler: async (request, reply) => {
        const before = await deps.records.currentCatalogue()
        if (before !== null) ifMatches(request, before.version, presence)
        const content: unknown = request.body
        const sent: Sent = content instanceof Map ? { kind: 'files', files: content } : { kind: 'whole', body: content }
        return putSent({ deps, judge, request, reply }, sent, before)
      },
    })
  }
  route('POST', '/v1/catalogues', 'Send a whole catalogue', 'optional')
  route('PUT', '/v1/catalogues/current', 'Replace the catalogue in force', 'required')
}

interface Call {
  readonly deps: ApiDeps
  readonly judge: CatalogueJudge
  readonly request: FastifyRequest
  readonly reply: FastifyReply
}

/** Makes what was sent the catalogue in force, unless another came in between while a condition was set. */
export async function putSent(
  { deps, judge, request, reply }: Call,
  sent: Sent,
  before: { readonly version: string; readonly content: string } | null,
): Promise<FastifyReply> {
  const { next, reply: words } = await judge.judge({ sent, before: before?.content ?? null, day: today() })
  const expected = request.headers['if-match'] === undefined ? null : (before?.version ?? null)
  if (!(await deps.records.uploadCatalogue(next, expected))) {
    throw changedMeanwhile((await deps.records.currentCatalogue())?.version ?? '')
  }
  const { version } = next
  request.log.info({ version, replaced: before?.version ?? null }, 'catalogue in force')
  reply.header('etag', `"${version}"`).header('location', `/v1/catalogues/${version}`)
  return sendJson(reply.code(before?.version === version ? 200 : 201), words)
}
